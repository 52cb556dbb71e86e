import { loudness } from '../loudness.ts';

/** A socket of whatever library. */
export interface Heard {
  readonly on: (event: 'data', heard: (bytes: Uint8Array) => void) => unknown;
}

/**
 * Cuts a peer that says more than so many bytes in a minute. The libraries bound a single answer at best; what somebody says whom
 * nobody asks costs memory and time without end.
 */
export const cutWhenLoud = (stream: Heard, bytesAMinuteMax: number, cut: () => void): void => {
  const isLoud = loudness(bytesAMinuteMax);
  stream.on('data', (bytes: Uint8Array) => {
    if (isLoud(bytes.length)) cut();
  });
};
