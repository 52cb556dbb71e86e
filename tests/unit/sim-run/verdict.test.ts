import { describe, expect, it } from 'vitest';
import { CENTRAL } from '../../../sim/plant/judgements.ts';
import type { BenchOutcome, Outcome } from '../../../sim/run/rehearse.ts';
import { adviceOn, judgeRehearsal } from '../../../sim/run/verdict.ts';
import { farmWith } from '../farm/example.ts';

// Four benches, wilt floor 0.2.
const farm = farmWith();
const NOON = Date.parse('2026-07-14T12:00:00+01:00');
const HOUR = 3_600_000;

const bench = (change: Partial<BenchOutcome> = {}): BenchOutcome => ({
  lowest: { value: 0.8, atMillis: NOON },
  warmest: { value: 28, atMillis: NOON },
  lowestOxygen: { value: 5, atMillis: NOON },
  strongest: 1.7,
  wiltedAtMillis: null,
  belowStressMinutes: 0,
  longestRestMinutes: 60,
  drunkLitres: 40,
  timeLeft: { minutes: 90, failedAtMillis: NOON },
  oneMiss: { theta: 0.5, missedAtMillis: NOON },
  ...change,
});

/** One run whose benches are well but for those told. */
const run = (...changes: readonly Partial<BenchOutcome>[]): Outcome => ({
  draw: 'central',
  judgements: CENTRAL,
  benches: [0, 1, 2, 3].map((place) => bench(changes[place])),
  pumpMinutes: 300,
  drunkLitres: 160,
  strength: { start: 1.6, end: 1.6, weakest: 1.6, strongest: 1.6 },
  tankLitresLowest: 300,
  entries: [],
  moments: [],
  pumpRuns: [],
});
const missedAt = (theta: number, atMillis = NOON): Partial<BenchOutcome> => ({
  oneMiss: { theta, missedAtMillis: atMillis },
});

describe('the verdict of a rehearsal', () => {
  it('holds when no bench of 3 runs wilts and the worst miss leaves 0.2 or more', () => {
    expect(judgeRehearsal(farm, [run(), run(missedAt(0.2)), run()])).toEqual({ kind: 'holds', runs: 3 });
  });

  it('names the bench, the flood and the θ of the worst miss over all runs, and how many runs fail', () => {
    const runs = [run(), run({}, missedAt(0.15)), run({}, {}, missedAt(0.05, NOON + HOUR)), run()];
    expect(judgeRehearsal(farm, runs)).toEqual({
      kind: 'holds-unless-missed',
      bench: 'Bench 3',
      theta: 0.05,
      missedAtMillis: NOON + HOUR,
      failing: 2,
      runs: 4,
    });
  });

  it('puts a bench that wilts before any miss, and tells the earliest moment of any run', () => {
    const runs = [
      run({ wiltedAtMillis: NOON + 2 * HOUR }, { wiltedAtMillis: NOON + 3 * HOUR }),
      run({}, { wiltedAtMillis: NOON + HOUR }, missedAt(0.01)),
      run(),
    ];
    expect(judgeRehearsal(farm, runs)).toEqual({
      kind: 'may-wilt',
      bench: 'Bench 2',
      fromMillis: NOON + HOUR,
      failing: 2,
      runs: 3,
    });
  });

  it('gives nothing for a bench without plants, dry as it may be', () => {
    const empty = farmWith([['benches', 1, 'plants'], 0]);
    const dry = { ...missedAt(0), wiltedAtMillis: NOON };
    expect(judgeRehearsal(empty, [run({}, dry)])).toEqual({ kind: 'holds', runs: 1 });
  });
});

describe('the advice', () => {
  const advice = (outcome: Outcome): string =>
    adviceOn(farm, [outcome], judgeRehearsal(farm, [outcome])).join(' ');

  it('is none when the plan holds', () => {
    expect(adviceOn(farm, [run()], judgeRehearsal(farm, [run()]))).toEqual([]);
  });

  it('looks at the day part of the missed flood, and of the wilting', () => {
    expect(advice(run(missedAt(0.1)))).toContain('heat of the day');
    expect(advice(run({ wiltedAtMillis: NOON - 5 * HOUR }))).toContain('early morning');
  });
});
