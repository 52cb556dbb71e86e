import { EventEmitter } from 'node:events';

/** What the Firmata client takes for a serial port; it hears only what the gate has passed. */
export class ClientTransport extends EventEmitter {
  readonly #send: (bytes: Uint8Array) => void;

  constructor(send: (bytes: Uint8Array) => void) {
    super();
    this.#send = send;
  }

  write(bytes: Uint8Array, done?: () => void): void {
    this.#send(bytes);
    done?.();
  }
}
