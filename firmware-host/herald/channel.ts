import type { Form, Message, Sent } from '../../src/delivery/message.ts';

/** One way out. Must settle soon after `signal` aborts; whoever asks does not wait for it. */
export interface Channel {
  readonly name: string;
  readonly forms: readonly Form[];
  /** How many messages may be under way at once. */
  readonly most: number;
  /** Rejects for nothing that the world does. */
  readonly send: (message: Message, signal: AbortSignal) => Promise<Sent>;
  /** Whether a message could go now, found out without sending one; null where that cannot be known. */
  readonly check: ((signal: AbortSignal) => Promise<Sent>) | null;
  readonly close: () => Promise<void>;
}
