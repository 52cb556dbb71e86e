import { expect, it } from 'vitest';
import { createBoardLink, type BoardLink, type LinkAsked } from '../../firmware-host/devices/board-link.ts';
import type { HostMessage } from '../../sim/board/firmata/host-message.ts';
import { createParser } from '../../sim/board/firmata/parser.ts';
import type { PeerSetup } from '../../sim/board/firmata/peer.ts';
import type { Wiring } from '../../src/farm/farm.ts';
import { wiringSchema } from '../../src/farm/wiring-schema.ts';
import type { Channel, Sample } from '../../src/ports/sample.ts';
import { onDesk, type Desk } from '../unit/board/desk.ts';
import { until, type Bench } from './bench.ts';

export const RELAY_PIN = 7;
export const SERIAL_NUMBER = '0042';
/** Long enough that the host has to wait for it. */
const BOOT_MILLIS = 100;

/** A board with a part on every kind of pin; contacts of both polarities. */
export const wiringWith = (change: object = {}): Wiring =>
  wiringSchema.parse({
    relay: { pin: RELAY_PIN },
    returnFlow: { pin: 2, pulsesPerLitre: 10 },
    relayReadBack: { pin: 3 },
    tankFloat: { pin: 4, reads: 'high' },
    buzzer: 5,
    lamp: 6,
    button: 8,
    leakSensor: { pin: 9 },
    overflowFloat: { pin: 10, reads: 'high' },
    airThermistor: { pin: 'A0' },
    waterThermistor: { pin: 'A1', wired: 'to-reference' },
    probe: { pin: 'A2', fullScaleMicrosiemensPerCm: 3000 },
    pumpCurrent: { pin: 'A3', drawsAboveCounts: 100 },
    humidity: { pin: 'A4' },
    tankLevel: { pin: 'A5', litresAtZero: 0, litresAtFullScale: 600 },
    ...change,
  });

/** A board on a desk that remembers every byte it was sent. */
export interface BenchBoard extends Desk {
  readonly heard: number[];
}

export const benchBoard = (change: Partial<PeerSetup> = {}): BenchBoard => {
  const desk = onDesk({ firmwareName: 'Board under test', bootMillis: BOOT_MILLIS, ...change });
  const heard: number[] = [];
  return {
    ...desk,
    heard,
    peer: {
      ...desk.peer,
      receive: (bytes, now) => {
        for (const byte of bytes) heard.push(byte);
        desk.peer.receive(bytes, now);
      },
    },
  };
};

export const messagesOf = (bytes: readonly number[]): readonly HostMessage[] =>
  createParser().push(Uint8Array.from(bytes));

const DRIVING: readonly HostMessage['kind'][] = [
  'set-pin-mode',
  'set-pin-value',
  'digital-port-write',
  'analog-write',
  'extended-analog-write',
];

/** What of these bytes would change a pin. */
export const drivingIn = (bytes: readonly number[]): readonly HostMessage[] =>
  messagesOf(bytes).filter(({ kind }) => DRIVING.includes(kind));

/** How often a pin went to a level. */
export const timesDriven = ({ driven }: Desk, pin: number, level: 0 | 1): number =>
  driven.filter(([at, now]) => at === pin && now === level).length;

export const linkOn = (bench: Bench, change: Partial<LinkAsked> = {}): BoardLink =>
  createBoardLink({
    wiring: wiringWith(),
    deadBoard: 'pump-stops',
    use: 'drive',
    lines: bench.lines,
    port: 'auto',
    timers: bench.timers,
    ...change,
  });

/** A board that is plugged in and driven. */
export interface Visit {
  readonly bench: Bench;
  readonly board: BenchBoard;
  readonly link: BoardLink;
}

export const up = (bench: Bench, link: BoardLink, secondsMax = 5): Promise<void> =>
  until(bench, 'the link is up', () => link.link().kind === 'up', secondsMax);

/** One fact about a board that is plugged in; each has a bench of its own, so that they may wait at the same time. */
export const factsOn =
  (openBench: () => Promise<Bench>) =>
  (title: string, holds: (visit: Visit) => Promise<void>, linkChange: Partial<LinkAsked> = {}): void => {
    it.concurrent(title, async () => {
      const bench = await openBench();
      try {
        const visit = await connected(bench, linkChange);
        await holds(visit);
        await visit.link.close();
        expect(bench.staleBytes()).toBe(0);
      } finally {
        await bench.end();
      }
    });
  };

export const connected = async (
  bench: Bench,
  linkChange: Partial<LinkAsked> = {},
  boardChange: Partial<PeerSetup> = {},
): Promise<Visit> => {
  const board = benchBoard(boardChange);
  await bench.plug(bench.ports[0], board.peer, SERIAL_NUMBER);
  const link = linkOn(bench, linkChange);
  await up(bench, link);
  return { bench, board, link };
};

type Of<Name extends Channel> = Extract<Sample, { channel: Name }>;

/** Waits for a sample of a channel that is so. */
export const told = <Name extends Channel>(
  { bench, link }: Visit,
  channel: Name,
  so: (sample: Of<Name>) => boolean,
  secondsMax = 5,
): Promise<void> =>
  until(
    bench,
    `a sample of ${channel} that is so`,
    () => link.samples().some((sample) => sample.channel === channel && so(sample as Of<Name>)),
    secondsMax,
  );
