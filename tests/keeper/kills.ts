import { seededDice } from '../../sim/dice.ts';
import { tableBytes } from '../../src/plan/keeper-table.ts';
import { START } from '../support/plant.ts';
import { flashTable } from './image.ts';
import { openKeptShed, type HostLife, type KeptShed, type Ran } from './kept-shed.ts';
import { QUICK, quickFarm } from './quick-farm.ts';

/** Moments of a host's life at which it is killed, in turn. */
export const MOMENTS = [
  'in a flood',
  'in a rest',
  'in a table write',
  'in a hand-over',
  'in a flood',
  'in a hold',
] as const;
type Moment = (typeof MOMENTS)[number];

export interface Killed {
  readonly moment: Moment;
  readonly at: number;
  /** When the next host began. */
  readonly backAt: number;
  readonly journal: HostLife['journal'];
  /** By the status of the board when it was next asked. */
  readonly tableCrcAfter: number | null;
}

export interface Kills {
  readonly shed: KeptShed;
  readonly killed: readonly Killed[];
  /** Moments between which somebody holds the pump, and until when. */
  readonly holds: readonly { readonly from: number; readonly until: number }[];
  readonly ran: readonly Ran[];
  readonly end: number;
}

const TAKES_SECONDS = 30;
const CYCLE_SECONDS = (QUICK.restMinutes + QUICK.floodMinutes) * 60;
const ALONE_SECONDS_MAX = 1.5 * CYCLE_SECONDS;
/** After a hold, so that it often ends while the board is alone. */
const ALONE_HELD_SECONDS_MAX = 45 * 60;
const HOLD_MILLIS = 30 * 60_000;

const until = async (shed: KeptShed, so: () => boolean, secondsMax: number): Promise<void> => {
  for (let waited = 0; waited < secondsMax && !so(); waited += 0.25) await shed.pass(0.25);
};

/** Two tables that differ in what no flood goes by, so that each host has something to write. */
export const tables = (): readonly [Uint8Array, Uint8Array] => {
  const table = flashTable(quickFarm());
  return [tableBytes(table), tableBytes({ ...table, returnLagSeconds: table.returnLagSeconds + 60 })];
};

/** Kills one host after another at seeded moments; between two the board is alone for a seeded while. */
export const killed = async (asked: {
  readonly kills: number;
  readonly seed: number;
  readonly resetsOnOpen: boolean;
}): Promise<Kills> => {
  const dice = seededDice(asked.seed);
  const shed = openKeptShed({ farm: quickFarm(), startMillis: START, days: 60, ...asked });
  const now = (): number => shed.time.timers.now();
  const runs = (): boolean => shed.ran.at(-1)?.until === null;
  const writes = (): number => shed.board.chip.tally().eepromWrites;
  const all: { -readonly [Key in keyof Killed]: Killed[Key] }[] = [];
  const holds: { readonly from: number; readonly until: number }[] = [];

  for (let kill = 0; kill < asked.kills; kill += 1) {
    const moment = MOMENTS[kill % MOMENTS.length]!;
    const writesBefore = writes();
    const host = shed.startHost(tables()[kill % 2]);
    const last = all.at(-1);
    if (last !== undefined) last.backAt = now();
    const up = (): Promise<void> => until(shed, () => host.link.link().kind === 'up', TAKES_SECONDS);
    switch (moment) {
      case 'in a hand-over':
        await shed.pass(dice() * 6);
        break;
      case 'in a flood':
        await up();
        await until(shed, runs, CYCLE_SECONDS);
        await shed.pass(dice() * QUICK.floodMinutes * 60);
        break;
      case 'in a rest':
        await up();
        await until(shed, () => !runs(), CYCLE_SECONDS);
        await shed.pass(dice() * QUICK.restMinutes * 60);
        break;
      case 'in a hold':
        await up();
        host.order('long');
        holds.push({ from: now(), until: now() + HOLD_MILLIS });
        await shed.pass(2 + dice() * 60);
        break;
      case 'in a table write':
        await up();
        await until(shed, () => writes() > writesBefore, 5);
        await shed.pass(dice() * 0.3);
        break;
    }
    const crc = host.link.keeperState()?.status?.table.crc ?? null;
    if (last !== undefined) last.tableCrcAfter = crc;
    host.kill();
    all.push({ moment, at: now(), backAt: Infinity, journal: host.journal, tableCrcAfter: null });
    await shed.pass(dice() * (moment === 'in a hold' ? ALONE_HELD_SECONDS_MAX : ALONE_SECONDS_MAX));
  }
  return { shed, killed: all, holds, ran: shed.ran, end: now() };
};
