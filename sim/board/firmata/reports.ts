import { assert } from '../../../src/units/assertion.ts';
import { bounded } from '../../../src/units/bounded.ts';
import { analogMessage, digitalPortMessage, PIN_MODE } from './bytes.ts';
import type { PinBank } from './pin-bank.ts';
import type { PinTable } from './uno-pins.ts';

/** Of protocol and stock firmware on an ATmega328P. */
export const SAMPLING_INTERVAL_DEFAULT_MILLIS = 19;
export const SAMPLING_INTERVAL_LEAST_MILLIS = 10;
/** Two groups of 7 bits. */
export const SAMPLING_INTERVAL_MOST_MILLIS = 16_383;
/** Samplings that one step may make up for; a caller that jumps further loses the oldest, counted. */
export const SAMPLINGS_PER_STEP_MAX = 64;

const PINS_PER_PORT = 8;
const ANALOG_MOST = 1023;

/** What a board tells without being asked each time. */
export interface Reports {
  /** From the start of the firmware on; nothing is reported and the interval is the default one. */
  readonly start: (now: number) => void;
  /** All reporting off; the interval stays as it is. */
  readonly silence: () => void;
  readonly wantAnalog: (channel: number, wanted: boolean) => void;
  readonly wantDigital: (port: number, wanted: boolean) => void;
  readonly setIntervalMillis: (millis: number) => void;
  readonly intervalMillis: () => number;
  readonly advance: (now: number) => void;
  /** When the next report is due: `now` for an input that changed, `null` when nothing can be foreseen. */
  readonly nextDue: (now: number) => number | null;
  readonly skippedSamplings: () => number;
}

export const createReports = (
  table: PinTable,
  bank: PinBank,
  readAnalog: (channel: number) => number,
  send: (message: readonly number[]) => void,
): Reports => {
  const pinOfChannel = new Map<number, number>();
  table.forEach(({ analogChannel }, pin) => {
    if (analogChannel !== null) pinOfChannel.set(analogChannel, pin);
  });
  const ports = Math.ceil(table.length / PINS_PER_PORT);
  const wantedChannels = new Set<number>();
  /** Bits last told of each reported port. */
  const toldBits = new Map<number, number>();
  let intervalMillis = SAMPLING_INTERVAL_DEFAULT_MILLIS;
  let sampledAt = 0;
  let skippedSamplings = 0;

  const tellAnalog = (channel: number): void => {
    const seen = readAnalog(channel);
    assert(Number.isFinite(seen), `analog channel ${channel} of the world reads ${seen}`);
    send(analogMessage(channel, Math.round(bounded(seen, 0, ANALOG_MOST))));
  };
  const tellPort = (port: number): void => {
    const bits = bank.readPort(port);
    toldBits.set(port, bits);
    send(digitalPortMessage(port, bits));
  };
  const changedPorts = (): readonly number[] => {
    const changed: number[] = [];
    toldBits.forEach((bits, port) => {
      if (bank.readPort(port) !== bits) changed.push(port);
    });
    return changed;
  };
  const isSampled = ([channel, pin]: readonly [channel: number, pin: number]): boolean =>
    wantedChannels.has(channel) && bank.stateOf(pin)?.mode === PIN_MODE.analog;
  const channelPins = [...pinOfChannel];
  /** Wanted channels, lowest first, whose pin is in analog mode now. */
  const sampledChannels = (): readonly number[] => channelPins.filter(isSampled).map(([channel]) => channel);

  return {
    start: (now) => {
      wantedChannels.clear();
      toldBits.clear();
      intervalMillis = SAMPLING_INTERVAL_DEFAULT_MILLIS;
      sampledAt = now;
    },
    silence: () => {
      wantedChannels.clear();
      toldBits.clear();
    },
    wantAnalog: (channel, wanted) => {
      if (!pinOfChannel.has(channel)) return;
      if (wanted) {
        wantedChannels.add(channel);
        tellAnalog(channel);
      } else wantedChannels.delete(channel);
    },
    wantDigital: (port, wanted) => {
      if (port >= ports) return;
      if (wanted) tellPort(port);
      else toldBits.delete(port);
    },
    setIntervalMillis: (millis) => {
      intervalMillis = bounded(millis, SAMPLING_INTERVAL_LEAST_MILLIS, SAMPLING_INTERVAL_MOST_MILLIS);
    },
    intervalMillis: () => intervalMillis,
    advance: (now) => {
      changedPorts().forEach(tellPort);
      const due = Math.floor((now - sampledAt) / intervalMillis);
      if (due === 0) return;
      sampledAt += due * intervalMillis;
      const made = Math.min(due, SAMPLINGS_PER_STEP_MAX);
      const channels = sampledChannels();
      if (channels.length > 0) skippedSamplings += due - made;
      for (let sampling = 0; sampling < made; sampling += 1) channels.forEach(tellAnalog);
    },
    nextDue: (now) => {
      if (changedPorts().length > 0) return now;
      return channelPins.some(isSampled) ? Math.max(now, sampledAt + intervalMillis) : null;
    },
    skippedSamplings: () => skippedSamplings,
  };
};
