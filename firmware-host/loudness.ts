const WINDOW_MILLIS = 60_000;

/** Counts what is heard; gives whether it is more than so many bytes in a minute. */
export const loudness = (bytesAMinuteMax: number): ((bytes: number) => boolean) => {
  let since = performance.now();
  let heard = 0;
  return (bytes) => {
    const now = performance.now();
    if (now - since >= WINDOW_MILLIS) [since, heard] = [now, 0];
    heard += bytes;
    return heard > bytesAMinuteMax;
  };
};
