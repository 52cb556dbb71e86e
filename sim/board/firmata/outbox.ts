/** Bytes that may wait for the host to read them; the order of an operating system's serial buffer. */
export const OUTBOX_BYTES_MAX = 4096;

export interface Outbox {
  /** Queues a whole message, or drops all of it when it no longer fits: never half a message. */
  readonly put: (message: readonly number[]) => void;
  /** Everything queued since last taken. */
  readonly take: () => Uint8Array;
  readonly clear: () => void;
  readonly droppedMessages: () => number;
}

export const createOutbox = (): Outbox => {
  let waiting: number[] = [];
  let droppedMessages = 0;
  return {
    put: (message) => {
      if (waiting.length + message.length > OUTBOX_BYTES_MAX) droppedMessages += 1;
      else waiting.push(...message);
    },
    take: () => {
      const taken = Uint8Array.from(waiting);
      waiting = [];
      return taken;
    },
    clear: () => {
      waiting = [];
    },
    droppedMessages: () => droppedMessages,
  };
};
