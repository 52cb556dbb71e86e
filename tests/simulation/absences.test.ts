import { describe, expect, it } from 'vitest';
import { seededDice, type Dice } from '../../sim/dice.ts';
import { exampleFarm } from '../support/farm.ts';
import { utc } from '../support/moments.ts';
import { counted, runAbsence, type AbsenceAsked, type AbsenceRun, type Counted } from './absence-run.ts';

/** 12:00 in Lisbon; until 16:00 the plan gives 25 min of rest and 20 of flood, at 30 °C and by the table alike. */
const NOON = utc('2026-07-14T11:00Z');
const MINUTE = 60;
const SECONDS = 225 * MINUTE;
const TABLE = { restSeconds: 25 * MINUTE, floodSeconds: 20 * MINUTE };
const SHORTEST_REST = exampleFarm.bounds.restMinutesByDay.shortest;
/** The plan's rest, ten seconds of lease, 30 s of shortest off, and a look of the host. */
const LONGEST_REST = 25 + 2;
const BASE: AbsenceAsked = { farm: exampleFarm, startWall: NOON, seconds: SECONDS, table: TABLE, cuts: [] };

interface Held {
  readonly from: number;
  readonly until: number;
}
interface Scene extends AbsenceAsked {
  readonly held?: readonly Held[];
}

const foundIn = (run: AbsenceRun, { table, held = [] }: Scene): Counted =>
  counted(run, {
    floodSeconds: table.floodSeconds,
    shortestRestMinutes: SHORTEST_REST,
    longestRestMinutes: LONGEST_REST,
    untilMillis: SECONDS * 1000,
    held,
  });
const NOTHING: Counted = { lost: [], doubled: [], misjudged: [] };

/** From a cable that is touched to a board that is alone for longer than a turn of the plan. */
const SPANS = [1, 4, 6, 12, MINUTE, 10 * MINUTE, 30 * MINUTE, 75 * MINUTE];
const spanBy = (dice: Dice): number =>
  Math.max(1, Math.round(SPANS[Math.floor(dice() * SPANS.length)]! * (0.8 + 0.4 * dice())));

const calm = runAbsence(BASE);
const runsAt = (second: number): boolean =>
  calm.runs.some(({ startedAt, endedAt }) => startedAt <= second * 1000 && second * 1000 < endedAt);
/** A moment of chance in one of the floods from 30 to 110 min, or in a rest between them. */
const momentIn = (what: 'flood' | 'rest', dice: Dice): number => {
  for (;;) {
    const at = Math.floor((30 + 80 * dice()) * MINUTE);
    if (runsAt(at) === (what === 'flood')) return at;
  }
};
const heldFrom = (from: number): Held => ({ from: from * 1000, until: (from + 30 * MINUTE) * 1000 });

const SCENES: Readonly<Record<string, (dice: Dice) => Scene>> = {
  'in a flood': (dice) => ({ ...BASE, cuts: [{ at: momentIn('flood', dice), seconds: spanBy(dice) }] }),
  'in a rest': (dice) => ({ ...BASE, cuts: [{ at: momentIn('rest', dice), seconds: spanBy(dice) }] }),
  'in a hold of 30 min': (dice) => {
    const from = Math.floor((30 + 60 * dice()) * MINUTE);
    return {
      ...BASE,
      orders: [{ at: from, event: { kind: 'hold', minutes: 30, who: 'Ana' } }],
      cuts: [{ at: from + 1 + Math.floor(30 * MINUTE * dice()), seconds: spanBy(dice) }],
      held: [heldFrom(from)],
    };
  },
  // Lost again three times, each within 15 s of being heard, or about when the lease runs out.
  'at a hand-over': (dice) => {
    const cuts = [{ at: momentIn(dice() < 0.5 ? 'flood' : 'rest', dice), seconds: spanBy(dice) }];
    for (let again = 0; again < 3; again += 1) {
      const last = cuts.at(-1)!;
      const at = last.at + Math.max(last.seconds, 5) + 2 + Math.floor(15 * dice());
      cuts.push({ at, seconds: 1 + Math.floor(20 * dice()) });
    }
    return { ...BASE, cuts };
  },
};

const sceneOf = (name: string, seed: number): Scene => SCENES[name]!(seededDice(1000 * seed + name.length));

describe.each(Object.keys(SCENES))('a board that keeps the plants and is lost %s', (name) => {
  it('at 50 moments of chance: 0 floods lost, 0 doubled inside 10 min, one verdict for each', () => {
    for (let seed = 1; seed <= 50; seed += 1) {
      const scene = sceneOf(name, seed);
      expect({ seed, ...foundIn(runAbsence(scene), scene) }).toEqual({ seed, ...NOTHING });
    }
  });

  it('while the host begins anew, at 50 moments of chance: 0 floods lost, 0 doubled inside 10 min', () => {
    for (let seed = 51; seed <= 100; seed += 1) {
      const scene = sceneOf(name, seed);
      const { lost, doubled } = foundIn(runAbsence({ ...scene, host: 'dies' }), scene);
      expect({ seed, lost, doubled }).toEqual({ seed, lost: [], doubled: [] });
    }
  });

  it('is asked nothing that it refuses, and not told off when it is heard again', () => {
    for (let seed = 1; seed <= 50; seed += 1) {
      const scene = sceneOf(name, seed);
      const { told, backAt } = runAbsence(scene);
      expect({ seed, refused: told.filter(({ heard }) => !heard) }).toEqual({ seed, refused: [] });
      const off = told.filter(({ at, command }) => backAt.includes(at) && command.kind === 'pump-off');
      expect({ seed, off }).toEqual({ seed, off: [] });
    }
  });
});

describe('a board that keeps the plants, lost at moments of chance', () => {
  it('by a table of shorter floods, 15 min after 20, loses none and doubles none (50 moments)', () => {
    const table = { restSeconds: 20 * MINUTE, floodSeconds: 15 * MINUTE };
    for (let seed = 1; seed <= 50; seed += 1) {
      const scene = { ...sceneOf('in a flood', seed), table };
      expect({ seed, ...foundIn(runAbsence(scene), scene) }).toEqual({ seed, ...NOTHING });
    }
  });

  it('loses none and doubles none where no clock is believed (50 moments)', () => {
    for (let seed = 1; seed <= 50; seed += 1) {
      const scene: Scene = {
        ...sceneOf(seed % 2 === 0 ? 'in a flood' : 'in a rest', seed),
        clock: 'unknown',
      };
      expect({ seed, ...foundIn(runAbsence(scene), scene) }).toEqual({ seed, ...NOTHING });
    }
  });

  it('and held by its own button meanwhile stays held for the host, to the end of the 30 min (50 moments)', () => {
    for (let seed = 1; seed <= 50; seed += 1) {
      const dice = seededDice(seed);
      const at = Math.floor((30 + 60 * dice()) * MINUTE);
      const pressedAt = at + 4 + Math.floor(60 * dice());
      const scene: Scene = {
        ...BASE,
        cuts: [{ at, seconds: pressedAt - at + spanBy(dice) }],
        atBoard: [
          {
            at: pressedAt,
            does: (board) => {
              board.pressLong(30 * MINUTE);
            },
          },
        ],
        held: [heldFrom(pressedAt)],
      };
      const run = runAbsence(scene);
      const inHold = run.runs.filter(
        ({ startedAt }) => startedAt > pressedAt * 1000 && startedAt < (pressedAt + 30 * MINUTE) * 1000,
      );
      expect({ seed, inHold, ...foundIn(run, scene) }).toEqual({ seed, inHold: [], ...NOTHING });
    }
  });

  it('and without power for an instant meanwhile loses none, and doubles at most one (50 moments)', () => {
    for (let seed = 1; seed <= 50; seed += 1) {
      const dice = seededDice(seed);
      const at = Math.floor((30 + 60 * dice()) * MINUTE);
      const seconds = 30 + Math.floor(70 * MINUTE * dice());
      const scene: Scene = {
        ...BASE,
        cuts: [{ at, seconds }],
        atBoard: [
          {
            at: at + 5 + Math.floor((seconds - 10) * dice()),
            does: (board) => {
              board.powerLost();
            },
          },
        ],
      };
      const { lost, doubled, misjudged } = foundIn(runAbsence(scene), scene);
      expect({ seed, lost, misjudged }).toEqual({ seed, lost: [], misjudged: [] });
      expect(doubled.length).toBeLessThanOrEqual(1);
    }
  });
});

describe('a hold that is ordered at the host while the board is not heard', () => {
  it('warns that the pump may run, and stops it in the second in which the board is heard', () => {
    const at = 50 * MINUTE;
    const run = runAbsence({
      ...BASE,
      cuts: [{ at, seconds: 5 * MINUTE }],
      orders: [{ at: at + MINUTE, event: { kind: 'hold', minutes: 30, who: 'Ana' } }],
    });
    expect(runsAt(at)).toBe(true);
    const order = run.entries.find((entry) => entry.kind === 'order');
    expect(order).toMatchObject({
      says: 'hold for 30 min; the board does not hear it, and the pump may run: pull the plug',
    });
    const back = run.backAt[0]!;
    const said = run.told.filter((one) => one.at >= at * 1000).map((one) => [one.command.kind, one.at]);
    expect(said.slice(0, 2)).toEqual([
      ['hold', back],
      ['pump-off', back],
    ]);
    expect(
      run.runs.find(
        ({ startedAt }) => runsAt(at) && startedAt < at * 1000 && startedAt > at * 1000 - 20 * 60_000,
      )?.endedAt,
    ).toBe(back);
  });
});
