import { describe, expect, it } from 'vitest';
import { seededDice, type Dice } from '../../sim/dice.ts';
import { exampleFarm } from '../support/farm.ts';
import { utc } from '../support/moments.ts';
import { counted, runAbsence, type AbsenceAsked, type Counted } from './absence-run.ts';

/** 12:00 in Lisbon; until 16:00 the plan gives 25 min of rest and 20 of flood, at 30 °C and by the table alike. */
const NOON = utc('2026-07-14T11:00Z');
const MINUTE = 60;
const SECONDS = 225 * MINUTE;
const BASE: AbsenceAsked = {
  farm: exampleFarm,
  startWall: NOON,
  seconds: SECONDS,
  table: { restSeconds: 25 * MINUTE, floodSeconds: 20 * MINUTE },
  cuts: [],
  host: 'resumes',
};
const NOTHING: Counted = { lost: [], doubled: [], misjudged: [] };

const foundIn = (scene: AbsenceAsked, held: readonly { from: number; until: number }[] = []): Counted =>
  counted(runAbsence(scene), {
    floodSeconds: scene.table.floodSeconds,
    shortestRestMinutes: exampleFarm.bounds.restMinutesByDay.shortest,
    // The plan's rest, ten seconds of lease, 30 s of shortest off, and a look of the host.
    longestRestMinutes: 25 + 2,
    untilMillis: SECONDS * 1000,
    held,
  });

const SPANS = [1, 4, 6, 12, MINUTE, 10 * MINUTE, 30 * MINUTE, 75 * MINUTE];
const spanBy = (dice: Dice): number =>
  Math.max(1, Math.round(SPANS[Math.floor(dice() * SPANS.length)]! * (0.8 + 0.4 * dice())));
const momentBy = (dice: Dice): number => Math.floor((1 + 109 * dice()) * MINUTE);

/** A board with a keeper goes on; the process of the host ends and another goes on from what was kept. */
describe('a host that is killed, and goes on from what it kept while its board kept the plants', () => {
  it('at 60 moments of chance: 0 floods lost, 0 doubled inside 10 min, exactly one verdict for each', () => {
    for (let seed = 1; seed <= 60; seed += 1) {
      const dice = seededDice(seed);
      const scene = { ...BASE, cuts: [{ at: momentBy(dice), seconds: spanBy(dice) }] };
      expect({ seed, ...foundIn(scene) }).toEqual({ seed, ...NOTHING });
    }
  });

  it('three times within minutes, at 25 moments of chance: the same', () => {
    for (let seed = 1; seed <= 25; seed += 1) {
      const dice = seededDice(7000 + seed);
      const cuts = [{ at: momentBy(dice), seconds: spanBy(dice) }];
      for (let again = 0; again < 2; again += 1) {
        const last = cuts.at(-1)!;
        cuts.push({
          at: last.at + Math.max(last.seconds, 5) + 2 + Math.floor(40 * dice()),
          seconds: spanBy(dice),
        });
      }
      expect({ seed, ...foundIn({ ...BASE, cuts }) }).toEqual({ seed, ...NOTHING });
    }
  });

  it('in a hold of 30 min, at 25 moments of chance: the hold stands to its end, and nothing is lost', () => {
    for (let seed = 1; seed <= 25; seed += 1) {
      const dice = seededDice(9000 + seed);
      const from = Math.floor((30 + 60 * dice()) * MINUTE);
      const held = { from: from * 1000, until: (from + 30 * MINUTE) * 1000 };
      const scene: AbsenceAsked = {
        ...BASE,
        orders: [{ at: from, event: { kind: 'hold', minutes: 30, who: 'Ana' } }],
        cuts: [{ at: from + 1 + Math.floor(30 * MINUTE * dice()), seconds: spanBy(dice) }],
      };
      const inHold = runAbsence(scene).runs.filter(
        ({ startedAt }) => startedAt > held.from && startedAt < held.until - 1000,
      );
      expect({ seed, inHold, ...foundIn(scene, [held]) }).toEqual({ seed, inHold: [], ...NOTHING });
    }
  });

  it('where no clock is believed, at 25 moments of chance: the same', () => {
    for (let seed = 1; seed <= 25; seed += 1) {
      const dice = seededDice(11_000 + seed);
      const scene: AbsenceAsked = {
        ...BASE,
        clock: 'unknown',
        cuts: [{ at: momentBy(dice), seconds: spanBy(dice) }],
      };
      expect({ seed, ...foundIn(scene) }).toEqual({ seed, ...NOTHING });
    }
  });
});
