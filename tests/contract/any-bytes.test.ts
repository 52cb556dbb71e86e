import { queryObjects } from 'node:v8';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ClientTransport } from '../../firmware-host/devices/client-transport.ts';
import type { OpenLine } from '../../firmware-host/devices/line.ts';
import { seededDice } from '../../sim/dice.ts';
import { PIN_MODE } from '../../sim/board/firmata/bytes.ts';
import type { HostMessage } from '../../sim/board/firmata/host-message.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { seconds } from '../../src/units/quantity.ts';
import { until, virtualBench } from './bench.ts';
import {
  messagesOf,
  RELAY_PIN,
  SERIAL_NUMBER,
  stockBoard,
  wiringWith,
  type BenchBoard,
} from './bench-board.ts';
import { anyBytes, recordedMinute, spoiltPiece } from './spoilt-bytes.ts';
import { linkOn, told, up } from './visit.ts';

/** Bytes of each kind, over the three moments of a connection, and some of the board's own. */
const BYTES = 1_000_000;
const BYTES_A_MOMENT = 350_000;
const PIECE_BYTES = 64;
/** Of the samples that a host did not take; `board-link` keeps no more. */
const SAMPLES_MAX = 2000;
/** Nothing is left but the connection there is, and one whose end is under way. */
const CLIENTS_MAX = 2;

/** Less than the board has: what is told of other channels was not wired. */
const WIRING = wiringWith({ tankLevel: undefined, overflowFloat: undefined, humidity: undefined });
const WIRED: readonly string[] = [
  'return-flow',
  'relay-read-back',
  'tank-float',
  'leak',
  'air-temperature',
  'water-temperature',
  'probe',
  'pump-current',
];

/** Whether a message would pull the relay, or leave its pin as anything but an output. */
const touchesPump = (message: HostMessage): boolean => {
  if (message.kind === 'reset') return true;
  if (message.kind === 'digital-port-write') {
    return message.port === 0 && ((message.bits >> RELAY_PIN) & 1) === 1;
  }
  if (message.kind === 'set-pin-mode') return message.pin === RELAY_PIN && message.mode !== PIN_MODE.output;
  return 'pin' in message && message.pin === RELAY_PIN;
};

/** The moments of a connection, each with a board that keeps it there. */
const MOMENTS: readonly { readonly moment: string; readonly board: () => BenchBoard }[] = [
  // It never says a word.
  { moment: 'before the handshake', board: () => stockBoard({ bootMillis: 1e12 }) },
  {
    moment: 'in the handshake',
    board: () => {
      // It says who it is, and never what it can.
      const board = stockBoard();
      const { receive } = board.peer;
      const peer = {
        ...board.peer,
        receive: (bytes: Uint8Array, now: number): void => {
          receive(bytes.includes(0x6b) ? new Uint8Array() : bytes, now);
        },
      };
      return { ...board, peer };
    },
  },
  { moment: 'after the handshake', board: () => stockBoard() },
];

describe.each(['random', 'spoilt'] as const)(`${BYTES} %s bytes`, (kind) => {
  const failures: unknown[] = [];
  const failed = (error: unknown): void => {
    failures.push(error);
  };
  const warned = (warning: Error): void => {
    // Of a client that is asked again and again.
    if (warning.name === 'MaxListenersExceededWarning') failures.push(warning);
  };
  let recorded: readonly number[] = [];
  beforeAll(async () => {
    recorded = await recordedMinute();
    process.on('uncaughtExceptionMonitor', failed).on('unhandledRejection', failed).on('warning', warned);
  });
  afterAll(() => {
    process.off('uncaughtExceptionMonitor', failed).off('unhandledRejection', failed).off('warning', warned);
    expect(failures).toEqual([]);
  });

  it.each(MOMENTS)(
    'throw nothing, pull no relay and tell nothing that is not wired: $moment',
    async ({ moment, board: made }) => {
      const dice = seededDice(
        MOMENTS.findIndex((one) => one.moment === moment) + (kind === 'random' ? 10 : 20),
      );
      const plain = await virtualBench();
      /** Bytes that came while somebody had the port open. */
      let heardBytes = 0;
      const samples: Sample[] = [];
      // A board that says again who it is has reset itself: then all begins anew.
      const beginnings = moment.startsWith('after') ? 0.01 : 0.5;
      const open: OpenLine = (name, events) =>
        plain.lines.open(name, {
          ...events,
          heard: (bytes) => {
            heardBytes += bytes.length;
            events.heard(bytes);
          },
        });
      const bench = { ...plain, lines: { ...plain.lines, open } };
      const [port] = bench.ports;
      const board = made();
      await bench.plug(port, board.peer, SERIAL_NUMBER);
      const link = linkOn(bench, { wiring: WIRING, port });
      if (moment.startsWith('after')) await up(bench, link);
      while (heardBytes < BYTES_A_MOMENT) {
        const piece =
          kind === 'random'
            ? anyBytes(dice, PIECE_BYTES)
            : spoiltPiece(recorded, dice, PIECE_BYTES * 4, beginnings);
        bench.disturb(port, piece);
        // Of random bytes nobody takes the samples, so that they pile up.
        if (kind === 'spoilt') samples.push(...link.samples());
        await bench.pass(0.05 * (piece.length / PIECE_BYTES));
      }
      const left = link.samples();
      expect(left.length).toBeLessThanOrEqual(SAMPLES_MAX);
      samples.push(...left);
      if (moment.startsWith('after')) expect(samples.length).toBeGreaterThan(1000);
      expect(samples.filter(({ channel }) => !WIRED.includes(channel))).toEqual([]);
      const numbers = samples.flatMap((sample) =>
        Object.values(sample).filter((value) => typeof value === 'number'),
      );
      expect(numbers.filter((number) => !Number.isFinite(number))).toEqual([]);
      expect(messagesOf(board.heard).filter(touchesPump)).toEqual([]);
      expect(board.driven.filter(([pin, level]) => pin === RELAY_PIN && level === 1)).toEqual([]);

      await bench.unplug(port);
      await bench.pass(1);
      const well = stockBoard();
      await bench.plug(port, well.peer, SERIAL_NUMBER);
      await up(bench, link, 20);
      await told({ bench, link }, 'probe', () => true);
      link.command({ kind: 'pump-on', longest: seconds(60) });
      await until(bench, 'the pump runs', () => well.levelOf(RELAY_PIN) === 1, 2);
      await link.close();
      expect(bench.staleBytes()).toBe(0);
      expect(Number(queryObjects(ClientTransport))).toBeLessThanOrEqual(CLIENTS_MAX);
    },
  );
});
