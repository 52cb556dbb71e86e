/** Ends a command at SIGINT, SIGTERM, or when the terminal is closed. */
export const stopSignal = (): AbortSignal => {
  const stop = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.once(signal, () => {
      stop.abort();
    });
  }
  return stop.signal;
};
