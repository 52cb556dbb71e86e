import { createFirmataPeer, type FirmataPeer, type PeerSetup } from '../../../sim/board/firmata/peer.ts';
import type { Level } from '../../../sim/board/firmata/pin-bank.ts';
import { UNO_PIN_TABLE } from '../../../sim/board/firmata/uno-pins.ts';

export const BOOT_MILLIS = 1500;

/** A board on a desk: wires to its pins, and a log of what it drives. */
export interface Desk {
  readonly peer: FirmataPeer;
  /** What hangs on a digital pin; a pin not listed floats. */
  readonly digital: Map<number, 0 | 1>;
  /** Counts at an analog channel; 0 when not listed. */
  readonly analog: Map<number, number>;
  readonly driven: [pin: number, level: Level][];
  readonly levelOf: (pin: number) => Level;
}

export const onDesk = (change: Partial<PeerSetup> = {}): Desk => {
  const digital = new Map<number, 0 | 1>();
  const analog = new Map<number, number>();
  const driven: [number, Level][] = [];
  const peer = createFirmataPeer({
    firmwareName: 'Ab',
    firmwareVersion: { major: 3, minor: 4 },
    pins: UNO_PIN_TABLE,
    world: {
      readDigital: (pin) => digital.get(pin) ?? 'floating',
      readAnalog: (channel) => analog.get(channel) ?? 0,
      drive: (pin, level) => driven.push([pin, level]),
    },
    bootMillis: BOOT_MILLIS,
    ...change,
  });
  const levelOf = (pin: number): Level => driven.findLast(([at]) => at === pin)?.[1] ?? 'floating';
  return { peer, digital, analog, driven, levelOf };
};

/** A board whose port was opened at 0 and that has started and said who it is. */
export const started = (change: Partial<PeerSetup> = {}): Desk => {
  const desk = onDesk(change);
  desk.peer.open(0);
  desk.peer.advance(BOOT_MILLIS);
  desk.peer.take();
  return desk;
};

export const bytesOf = (hex: string): Uint8Array =>
  Uint8Array.from(
    hex.split(' ').filter((pair) => pair !== ''),
    (pair) => Number.parseInt(pair, 16),
  );

export const hexOf = (bytes: Iterable<number>): string =>
  [...bytes].map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');

/**
 * Cuts what a board sends into messages, by the message table of the protocol: three bytes for analog,
 * digital and version, else a sysex frame of data bytes.
 * @throws Error on anything that a board may not send
 */
export const messagesIn = (bytes: Uint8Array): readonly string[] => {
  const messages: string[] = [];
  for (let at = 0; at < bytes.length;) {
    const first = bytes[at]!;
    const kind = first < 0xf0 ? first & 0xf0 : first;
    let end = at + 3;
    if (kind === 0xf0) end = bytes.indexOf(0xf7, at) + 1;
    else if (![0xe0, 0x90, 0xf9].includes(kind)) throw new Error(`byte ${first} begins no message`);
    const data = bytes.slice(at + 1, kind === 0xf0 ? end - 1 : end);
    if (end <= at || end > bytes.length || data.some((byte) => byte > 0x7f))
      throw new Error(`broken message at ${at} of ${hexOf(bytes)}`);
    messages.push(hexOf(bytes.slice(at, end)));
    at = end;
  }
  return messages;
};

/** What the board answers to bytes heard at `now`. */
export const answerTo = (desk: Desk, hex: string, now = BOOT_MILLIS): readonly string[] => {
  desk.peer.receive(bytesOf(hex), now);
  return messagesIn(desk.peer.take());
};
