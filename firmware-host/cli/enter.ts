import { createInterface } from 'node:readline/promises';

/** Lines from whoever sits at the command; null when stdin has ended or the command was stopped. */
export interface Enter {
  readonly line: () => Promise<string | null>;
  readonly close: () => void;
}

export const enterFrom = (input: NodeJS.ReadableStream, stop: AbortSignal): Enter => {
  const lines = createInterface({ input, terminal: false });
  const answers = lines[Symbol.asyncIterator]();
  const stopped = new Promise<null>((end) => {
    const told = (): void => {
      end(null);
    };
    if (stop.aborted) told();
    else stop.addEventListener('abort', told, { once: true });
  });
  const line = async (): Promise<string | null> => {
    const next = answers.next().then(({ done, value }) => (done === true ? null : value));
    return Promise.race([next, stopped]);
  };
  return {
    line,
    close: () => {
      lines.close();
    },
  };
};
