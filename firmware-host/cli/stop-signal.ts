/** Ends a command at SIGINT, SIGTERM, or when the terminal is closed. */
export const stopSignal = (): AbortSignal => stoppedBy(['SIGINT', 'SIGTERM', 'SIGHUP']);

/**
 * Ends the run on a real pump at SIGINT or SIGTERM only: a terminal that is closed, as when a connection to the
 * shed drops, must not end the floods.
 */
export const pumpStopSignal = (): AbortSignal => {
  process.on('SIGHUP', () => undefined);
  return stoppedBy(['SIGINT', 'SIGTERM']);
};

const stoppedBy = (signals: readonly NodeJS.Signals[]): AbortSignal => {
  const stop = new AbortController();
  for (const signal of signals) {
    process.once(signal, () => {
      stop.abort();
    });
  }
  return stop.signal;
};
