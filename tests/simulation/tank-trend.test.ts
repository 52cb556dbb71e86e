import { describe, expect, it } from 'vitest';
import { seededDice } from '../../sim/dice.ts';
import { LEAK_LITRES_PER_MINUTE } from '../../sim/faults/plant-faults.ts';
import { drawnJudgements } from '../../sim/plant/judgements.ts';
import { SCENARIOS } from '../../sim/scenario/scenario.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { localDayOn } from '../../src/time/local-day.ts';
import { HOUR, runShed, timesRaised, told, type RunAsked, type ShedRun } from './shed-run.ts';
import { broken, clock, DAY, shedWith } from './sheds.ts';

/** The tank of 600 L with a level sensor, filled by hand. */
const EVIDENCE = {
  returnFlow: 'meter',
  pumpCurrent: true,
  relayReadBack: true,
  tankFloat: true,
  tankLevel: true,
};
const BY_HAND = shedWith([['evidence'], EVIDENCE], [['tank', 'topUp'], 'by-hand']);
/** With a float valve that slowly fills most of the day. */
const BY_VALVE = shedWith(
  [['evidence'], EVIDENCE],
  [['tank', 'topUp'], { floatValveAtLitres: 500, litresPerMinute: 0.5 }],
);

const MINUTE = 60_000;
/** A moment of the trend is the median of so many. */
const READINGS = 5;
const TRUE_LITRES_PER_HOUR = 60 * LEAK_LITRES_PER_MINUTE;

const run = (asked: Partial<RunAsked>): ShedRun =>
  runShed({ farm: BY_HAND, fromMillis: DAY.start, untilMillis: DAY.end, ...asked });
const falls = ({ alarms }: ShedRun): ShedRun['alarms'] =>
  alarms.filter(({ entry }) => entry.alarm === 'tank-falls');
const litresPerHour = (shed: ShedRun): number =>
  Number(/at least (\d+) L an hour/.exec(falls(shed)[0]?.entry.text ?? '')?.[1]);
/** Hours from a moment to the first alarm of a kind. */
const hoursTo = ({ alarms }: ShedRun, kind: string, fromMillis: number): number =>
  ((alarms.find(({ entry }) => entry.alarm === kind)?.entry.at ?? Infinity) - fromMillis) / HOUR;

const LEAK_AT_NINE = SCENARIOS.leak.faults({
  day: DAY,
  worstStart: () => {
    throw new Error('a leak waits for no flood');
  },
});

describe(`a leak that truly takes ${TRUE_LITRES_PER_HOUR} L/h, by a level sensor that is wrong by 2 L`, () => {
  it.each([1, 2, 3])(
    'from 9:00 of the scenario is told within 2.5 h, as 20 to 60 L/h, an hour before the float goes low (seed %i)',
    (seed) => {
      const shed = run({ seed, faults: LEAK_AT_NINE, untilMillis: clock(15) });
      expect(shed.alarms[0]?.entry.alarm).toBe('tank-falls');
      expect(hoursTo(shed, 'tank-falls', clock(9))).toBeLessThan(2.5);
      expect(litresPerHour(shed)).toBeGreaterThanOrEqual(20);
      expect(litresPerHour(shed)).toBeLessThanOrEqual(TRUE_LITRES_PER_HOUR);
      expect(hoursTo(shed, 'tank-low', falls(shed)[0]!.entry.at)).toBeGreaterThan(1);
    },
  );

  it('says by when the tank is too low for a flood: no more than half an hour after the float says so', () => {
    const shed = run({ faults: LEAK_AT_NINE, untilMillis: clock(15) });
    const { entry } = falls(shed)[0]!;
    expect(entry.priority).toBe('high');
    const minutes = Number(/in about (\d+) min/.exec(entry.text)?.[1]);
    const truly = 60 * hoursTo(shed, 'tank-low', entry.at);
    expect(minutes).toBeLessThan(truly + 30);
    expect(minutes).toBeGreaterThan(truly / 2);
  });

  it('from 22:00, between two floods of the night, is told within 2 h, as 25 to 60 L/h', () => {
    const shed = run({ fromMillis: clock(18), faults: broken('leak', 22), untilMillis: clock(24) });
    expect(hoursTo(shed, 'tank-falls', clock(22))).toBeLessThan(2);
    expect(litresPerHour(shed)).toBeGreaterThanOrEqual(25);
    expect(litresPerHour(shed)).toBeLessThanOrEqual(TRUE_LITRES_PER_HOUR);
  });

  it('is told over and returned within 3 h of its mending', () => {
    const shed = run({ faults: broken('leak', 9, 11.5), untilMillis: clock(14.5) });
    expect(falls(shed)).toHaveLength(1);
    expect(told(shed, 'alarm-returned').map(({ alarm }) => alarm)).toContain('tank-falls');
  });

  it.each([
    ['before it was told, at 10:00, and is told within 3 h', 10],
    ['after it was told, at 11:00, and stays told', 11],
  ])('outlives a restart %s', (_, hour) => {
    const shed = run({
      faults: LEAK_AT_NINE,
      restartsAt: [clock(hour)],
      resumes: { awayMinutes: 2 },
      untilMillis: clock(12),
    });
    expect(falls(shed)).toHaveLength(1);
    expect(told(shed, 'alarm-returned')).toEqual([]);
  });

  it('is told all the same when somebody pours in 150 L meanwhile', () => {
    const shed = run({
      faults: LEAK_AT_NINE,
      at: { millis: clock(10), does: ({ state: { tank } }) => void (tank.litres += 150) },
      untilMillis: clock(13),
    });
    expect(falls(shed)).toHaveLength(1);
    expect(hoursTo(shed, 'tank-falls', clock(9))).toBeLessThan(4);
  });
});

describe('a leak of which no float tells, in a tank that runs empty and is filled next morning with the leak there', () => {
  it('is told once, and never as over', () => {
    const shed = run({
      farm: shedWith([['evidence'], { ...EVIDENCE, tankFloat: false }], [['tank', 'topUp'], 'by-hand']),
      faults: LEAK_AT_NINE,
      at: { millis: clock(31), does: ({ state: { tank } }) => void (tank.litres = 500) },
      untilMillis: clock(34),
    });
    expect(falls(shed)).toHaveLength(1);
    expect(told(shed, 'alarm-returned').map(({ alarm }) => alarm)).not.toContain('tank-falls');
  });
});

describe('a leak that float and level sensor tell', () => {
  const shed = run({ faults: LEAK_AT_NINE, untilMillis: clock(14) });
  const calls = told(shed, 'alarm-called').filter(({ alarm }) => alarm !== null);
  const lowAt = shed.alarms.find(({ entry }) => entry.alarm === 'tank-low')!.entry.at;

  it('is called first by its litres an hour, and from the low tank on in its calls alone, which name it', () => {
    expect(calls[0]).toMatchObject({ alarm: 'tank-falls', call: 'raised' });
    const after = calls.filter(({ at }) => at >= lowAt);
    expect(after.length).toBeGreaterThan(3);
    expect(new Set(after.map(({ alarm }) => alarm))).toEqual(new Set(['tank-low']));
    expect(after[0]!.also).toContain('tank-falls');
  });
});

/** Each morning at six, so that the tank lasts the day. */
const filledDays = (farm: Farm, seed: number): readonly ShedRun[] =>
  [14, 15].map((date) => {
    const day = localDayOn(`2026-07-${date}`, farm.place.timeZone);
    return run({ farm, seed, fromMillis: clock(12, day), untilMillis: clock(30, day) });
  });

const level = (
  samples: readonly Sample[],
  litres: (sample: { at: number; litres: number }) => number,
): Sample[] =>
  samples.map((sample) => (sample.channel === 'tank-level' ? { ...sample, litres: litres(sample) } : sample));

describe('a tank that does not leak raises no alarm of its level', () => {
  it.each([1, 2, 3])('by day and night on hot days, filled by hand or by a slow valve (seed %i)', (seed) => {
    for (const farm of [BY_HAND, BY_VALVE])
      for (const shed of filledDays(farm, seed)) expect(falls(shed)).toEqual([]);
  });

  it('in twelve sheds whose plants drink what their doubt allows', () => {
    const dice = seededDice(20260714);
    for (let draw = 0; draw < 12; draw += 1) {
      const shed = run({ farm: BY_VALVE, seed: draw, judgements: drawnJudgements(dice) });
      expect(falls(shed)).toEqual([]);
    }
  });

  it.each([
    ['pours in 200 L', 200],
    ['takes out 150 L', -150],
  ])('when somebody %s at 10:00', (_, litres) => {
    const shed = run({
      at: { millis: clock(10), does: ({ state: { tank } }) => void (tank.litres += litres) },
      untilMillis: clock(14),
    });
    expect(falls(shed)).toEqual([]);
  });

  it.each([0, 1200])('by one sample in five that says %d L; a leak is told through them', (wrong) => {
    let count = 0;
    const heard = (samples: readonly Sample[]): readonly Sample[] =>
      level(samples, ({ litres }) => {
        count += 1;
        return count % READINGS === 0 ? wrong : litres;
      });
    expect(timesRaised(run({ farm: BY_VALVE, heard }))).toEqual({});
    const leaking = run({ heard, faults: LEAK_AT_NINE, untilMillis: clock(12) });
    expect(hoursTo(leaking, 'tank-falls', clock(9))).toBeLessThan(2.5);
  });

  it('by a sensor that sticks at 10:00, and lets go at 13:00', () => {
    let stuck = NaN;
    const shed = run({
      farm: BY_VALVE,
      heard: (samples) =>
        level(samples, ({ at, litres }) => {
          if (at < clock(10)) stuck = litres;
          return at < clock(10) || at > clock(13) ? litres : stuck;
        }),
    });
    expect(timesRaised(shed)).toEqual({});
  });

  it('by a sensor that says anything from 0 to 600 L for 10 min of each hour', () => {
    const dice = seededDice(7);
    const shed = run({
      farm: BY_VALVE,
      heard: (samples) =>
        level(samples, ({ at, litres }) => (at % HOUR < 10 * MINUTE ? 600 * dice() : litres)),
    });
    expect(falls(shed)).toEqual([]);
  });
});
