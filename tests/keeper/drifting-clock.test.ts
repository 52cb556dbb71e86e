import { beforeAll, describe, expect, it } from 'vitest';
import type { Entry } from '../../src/journal/entry.ts';
import { START } from '../support/plant.ts';
import { openKeptShed } from './kept-shed.ts';
import { QUICK, quickFarm } from './quick-farm.ts';

/** Seconds of the world at which the board is reset, and at which the host is killed. */
const RESET_AT = 1200;
const KILLED_AT = 2700;
const ENDS_AT = 6000;
/** A board that has just been reset lets the motor rest, by its own clock, and counts in whole seconds. */
const BEGINS_SECONDS = 12;
const LASTS_SECONDS = 4;
const FLOOD = QUICK.floodMinutes * 60;
const REST = QUICK.restMinutes * 60;

interface Drifted {
  /** Starts of floods and how long they last, in seconds of the world. */
  readonly floods: readonly { readonly from: number; readonly lasts: number }[];
  readonly journal: readonly Entry[];
}

/** A host with a board whose clock is off: a reset half way, then a kill, and the board goes on alone. */
const drifted = async (clockError: number, lineKeepsTime: boolean): Promise<Drifted> => {
  const shed = openKeptShed({
    farm: quickFarm(),
    startMillis: START,
    days: 1,
    seed: 6,
    resetsOnOpen: false,
    clockError,
    lineKeepsTime,
  });
  const host = shed.startHost();
  await shed.pass(RESET_AT);
  shed.board.reset(shed.time.timers.now());
  await shed.pass(KILLED_AT - RESET_AT);
  host.kill();
  await shed.pass(ENDS_AT - KILLED_AT);
  const floods = shed.ran.flatMap(({ from, until }) =>
    until === null ? [] : [{ from: (from - START) / 1000, lasts: (until - from) / 1000 }],
  );
  return { floods, journal: [...host.journal] };
};

const alarmsOf = ({ journal }: Drifted): readonly string[] =>
  journal.flatMap((entry) =>
    entry.kind === 'alarm-raised'
      ? [`${entry.alarm} ${entry.priority} at ${Math.round((entry.at - START) / 1000)} s`]
      : entry.kind === 'alarm-returned'
        ? [`${entry.alarm} returned`]
        : [],
  );

/** What the board does by itself follows its own clock and nothing else: each span is as much too long or too short. */
const expectOwnSpans = (floods: Drifted['floods'], clockError: number): void => {
  expect(floods.length).toBeGreaterThanOrEqual(3);
  for (const { lasts } of floods) expect(Math.abs(lasts - FLOOD / (1 + clockError))).toBeLessThan(1);
  floods.slice(1).forEach(({ from }, place) => {
    const { from: before, lasts } = floods[place]!;
    expect(Math.abs(from - before - lasts - REST / (1 + clockError))).toBeLessThan(1);
  });
};

describe('a host with a board whose clock drifts, over a line that keeps its time', () => {
  let exact: Drifted;
  beforeAll(async () => {
    exact = await drifted(0, true);
  }, 300_000);

  it('is told of no drift where there is none, also over a reset', () => {
    expect(alarmsOf(exact)).toEqual([]);
  });

  it.each([
    ['0.9x', -0.1, 'medium'],
    ['0.97x', -0.03, 'low'],
    ['1.03x', 0.03, 'low'],
    ['1.1x', 0.1, 'medium'],
  ] as const)(
    '%s: floods begin within 12 s of those of a right clock and last 4 s more or less; one alarm after 603 s, which a reset neither ends nor repeats; alone it is as far off as its clock',
    async (_, clockError, priority) => {
      const run = await drifted(clockError, true);
      const held = run.floods.filter(({ from }) => from < KILLED_AT);
      const right = exact.floods.filter(({ from }) => from < KILLED_AT);
      expect(held.length).toBe(right.length);
      held.forEach(({ from, lasts }, place) => {
        const { from: due, lasts: whole } = right[place]!;
        expect(Math.abs(from - due)).toBeLessThan(BEGINS_SECONDS);
        expect(Math.abs(lasts - whole)).toBeLessThan(LASTS_SECONDS);
      });
      expect(alarmsOf(run)).toEqual([`clock-drift ${priority} at 603 s`]);
      expectOwnSpans(
        run.floods.filter(({ from }) => from > KILLED_AT),
        clockError,
      );
    },
    300_000,
  );
});

describe('a board whose clock is a tenth off behind a line with a clock of its own', () => {
  it.each([
    ['0.9x', -0.1],
    ['1.1x', 0.1],
  ] as const)(
    '%s: no byte comes through; told high as a silent board after 30 s, and its own floods are as far off as its clock',
    async (_, clockError) => {
      const run = await drifted(clockError, false);
      expect(alarmsOf(run)).toEqual(['board-silent high at 30 s']);
      expectOwnSpans(
        run.floods.filter(({ from }) => from > RESET_AT + FLOOD + REST),
        clockError,
      );
    },
    300_000,
  );
});
