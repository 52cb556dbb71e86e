import { describe, expect, it } from 'vitest';
import type { Sample } from '../../../src/ports/sample.ts';
import {
  absorbed,
  airCelsius,
  chattersSince,
  humidityPercent,
  NO_SENSES,
  returnLitresPerMinute,
  switched,
  tankLitres,
  type Senses,
  waterCelsius,
  type SwitchChannel,
} from '../../../src/sense/senses.ts';
import { second } from '../../support/moments.ts';

const at = second(1000);
const heard = (...samples: readonly Sample[]): Senses => absorbed(NO_SENSES, samples, at);

const SWITCHES: readonly (readonly [SwitchChannel, (value: boolean) => Sample])[] = [
  ['return-switch', (flowing) => ({ channel: 'return-switch', flowing, at })],
  ['pump-current', (drawing) => ({ channel: 'pump-current', drawing, at })],
  ['relay-read-back', (closed) => ({ channel: 'relay-read-back', closed, at })],
  ['tank-float', (low) => ({ channel: 'tank-float', low, at })],
  ['leak', (wet) => ({ channel: 'leak', wet, at })],
  ['overflow', (wet) => ({ channel: 'overflow', wet, at })],
];

describe('switches', () => {
  for (const [channel, make] of SWITCHES) {
    it(`${channel}: true is true and false is false, good at 90 s and stale at 91 s`, () => {
      for (const value of [true, false]) {
        const senses = heard(make(value));
        expect(switched(senses, channel, second(1090))).toEqual({ quality: 'good', value, ageSeconds: 90 });
        expect(switched(senses, channel, second(1091))).toMatchObject({ quality: 'stale', value });
      }
    });

    it(`${channel} is absent while only the others have spoken`, () => {
      const others = SWITCHES.filter(([other]) => other !== channel).map(([, make]) => make(true));
      expect(switched(heard(...others), channel, at).quality).toBe('absent');
    });
  }
});

describe('a contact that chatters', () => {
  /** Changes at these seconds, and is heard of once more at the end. */
  const changing = (seconds: readonly number[], end: number): Senses => {
    const leak = (moment: number, changes: number): Sample => ({
      channel: 'leak',
      wet: changes % 2 === 1,
      at: second(moment),
    });
    const changes = seconds.map((moment, place) => leak(moment, place + 1));
    return absorbed(NO_SENSES, [leak(0, 0), ...changes, leak(end, changes.length)], second(end));
  };
  const every = (count: number, seconds: number, from = 1): readonly number[] =>
    Array.from({ length: count }, (_, place) => from + place * seconds);
  const qualityAt = (now: number, seconds: readonly number[]): string =>
    switched(changing(seconds, now), 'leak', second(now)).quality;

  it('is suspect from its eighth change within a minute on', () => {
    expect(qualityAt(60, every(7, 8))).toBe('good');
    expect(qualityAt(60, every(8, 8))).toBe('suspect');
    expect(switched(changing(every(8, 8), 60), 'leak', second(60))).toMatchObject({
      why: 'it chatters: a loose or wet contact',
    });
  });

  it('is not by eight changes in 61 s', () => {
    expect(qualityAt(70, every(8, 61 / 7))).toBe('good');
  });

  it('is good again 5 min after it was last seen to chatter, not before', () => {
    const last = 1 + 7 * 8;
    expect(qualityAt(last + 299, every(8, 8))).toBe('suspect');
    expect(qualityAt(last + 300, every(8, 8))).toBe('good');
  });

  it('stays suspect for those 5 min though it changes on, only slower', () => {
    const last = 1 + 7 * 8;
    const slower = [...every(8, 8), ...every(9, 30, last + 30)];
    for (let now = last + 31; now < last + 299; now += 30) {
      expect(
        qualityAt(
          now,
          slower.filter((moment) => moment < now),
        ),
      ).toBe('suspect');
    }
    expect(qualityAt(last + 301, slower)).toBe('good');
  });

  it('has chattered since the first of its changes, however long, and anew after 5 calm minutes', () => {
    const last = 1 + 7 * 8;
    const since = (now: number, seconds: readonly number[]): number | null =>
      chattersSince(changing(seconds, now), 'leak', second(now));
    expect(since(60, every(7, 8))).toBeNull();
    expect(since(60, every(8, 8))).toBe(second(1));
    expect(since(240, every(30, 8))).toBe(second(1));
    expect(since(last + 300, every(8, 8))).toBeNull();
    expect(since(500, [...every(8, 8), ...every(8, 8, 440)])).toBe(second(440));
  });

  it('speaks against itself alone', () => {
    const senses = absorbed(
      changing(every(8, 8), 60),
      [{ channel: 'overflow', wet: true, at: second(60) }],
      second(60),
    );
    expect(switched(senses, 'overflow', second(60))).toMatchObject({ quality: 'good', value: true });
  });
});

describe('the water thermometer', () => {
  const water = (celsius: number): Senses => heard({ channel: 'water-temperature', celsius, at });
  const stillFor = (hours: number): string => {
    const samples = Array.from({ length: hours * 12 + 1 }, (_, step): Sample => ({
      channel: 'water-temperature',
      celsius: 20,
      at: second(step * 300),
    }));
    const end = second(hours * 3600);
    return waterCelsius(absorbed(NO_SENSES, samples, end), end).quality;
  };

  it('is good from −5 to 60 °C and absent outside', () => {
    for (const celsius of [-5, 20, 60]) expect(waterCelsius(water(celsius), at).quality).toBe('good');
    for (const celsius of [-5.1, 60.1, -273.15, Number.NaN]) {
      expect(waterCelsius(water(celsius), at)).toEqual({
        quality: 'absent',
        why: 'the water thermometer reads out of range: open or shorted',
      });
    }
  });

  it('may be still for a day, which air may not, and not for 25 h', () => {
    expect(stillFor(24)).toBe('good');
    expect(stillFor(25)).toBe('suspect');
  });

  it('is another one than that of the air', () => {
    expect(airCelsius(water(20), at).quality).toBe('absent');
  });
});

describe('meters', () => {
  const flow = (litresPerMinute: number): Senses => heard({ channel: 'return-flow', litresPerMinute, at });
  const level = (litres: number): Senses => heard({ channel: 'tank-level', litres, at });
  const humid = (percent: number): Senses => heard({ channel: 'humidity', percent, at });

  it('are absent before they have spoken', () => {
    expect(returnLitresPerMinute(NO_SENSES, at).quality).toBe('absent');
    expect(tankLitres(NO_SENSES, at).quality).toBe('absent');
    expect(humidityPercent(NO_SENSES, at).quality).toBe('absent');
  });

  it('flow and level: 0 is a value, −0.1 and NaN are none, good at 90 s and stale at 91 s', () => {
    for (const [read, make] of [
      [returnLitresPerMinute, flow],
      [tankLitres, level],
    ] as const) {
      expect(read(make(0), second(1090))).toEqual({ quality: 'good', value: 0, ageSeconds: 90 });
      expect(read(make(0), second(1091)).quality).toBe('stale');
      expect(read(make(-0.1), at).quality).toBe('absent');
      expect(read(make(Number.NaN), at).quality).toBe('absent');
    }
  });

  it('humidity that moves by 30 % in a minute is good, by 31 % suspect', () => {
    const moved = (percent: number): string => {
      const later = second(1060);
      const senses = absorbed(humid(50), [{ channel: 'humidity', percent, at: later }], later);
      return humidityPercent(senses, later).quality;
    };
    expect([moved(80), moved(20), moved(81), moved(19)]).toEqual(['good', 'good', 'suspect', 'suspect']);
  });

  it('humidity: 1 and 100 % are values; 0, 100.1 % and NaN are none; good at 600 s and stale at 601 s', () => {
    for (const percent of [1, 100]) {
      expect(humidityPercent(humid(percent), second(1600))).toMatchObject({
        quality: 'good',
        value: percent,
      });
    }
    expect(humidityPercent(humid(50), second(1601)).quality).toBe('stale');
    for (const percent of [0, 100.1, Number.NaN]) {
      expect(humidityPercent(humid(percent), at).quality).toBe('absent');
    }
  });
});

describe('taking samples in', () => {
  const air = (seconds: number, celsius: number): Sample => ({
    channel: 'air-temperature',
    celsius,
    at: second(seconds),
  });
  const airAfter = (now: number, ...batches: readonly (readonly Sample[])[]): unknown =>
    airCelsius(
      batches.reduce((senses, batch) => absorbed(senses, batch, second(now)), NO_SENSES),
      second(now),
    );

  it('drops a sample from 1 s in the future, alone and among others', () => {
    expect(airAfter(100, [air(101, 30)])).toMatchObject({ quality: 'absent' });
    expect(airAfter(100, [air(90, 25), air(101, 30)])).toMatchObject({ value: 25, ageSeconds: 10 });
  });

  it('drops a sample older than the one held, in one batch and in two, and takes no jump from it', () => {
    const held = { quality: 'good', value: 25, ageSeconds: 10 };
    expect(airAfter(100, [air(90, 25), air(80, 45)])).toEqual(held);
    expect(airAfter(100, [air(90, 25)], [air(80, 45)])).toEqual(held);
  });

  it('of two samples of one moment takes the later one said', () => {
    expect(airAfter(100, [air(90, 25), air(90, 25.2)])).toMatchObject({ value: 25.2 });
  });

  it('an old sample of one channel leaves the others as they are', () => {
    const senses = absorbed(
      heard({ channel: 'leak', wet: true, at }),
      [
        { channel: 'leak', wet: false, at: second(999) },
        { channel: 'overflow', wet: true, at: second(999) },
      ],
      second(1010),
    );
    expect(switched(senses, 'leak', second(1010))).toMatchObject({ value: true, ageSeconds: 10 });
    expect(switched(senses, 'overflow', second(1010))).toMatchObject({ value: true, ageSeconds: 11 });
  });

  it('keeps the last 7 counts of the probe, oldest first', () => {
    const samples = Array.from({ length: 9 }, (_, counts): Sample => ({
      channel: 'probe',
      counts,
      at: second(counts),
    }));
    expect(absorbed(NO_SENSES, samples, second(9)).probeCounts).toEqual([2, 3, 4, 5, 6, 7, 8]);
  });

  it('nothing heard changes nothing, and what was held before is not changed in place', () => {
    const before = heard({ channel: 'tank-float', low: false, at });
    expect(absorbed(before, [], at)).toBe(before);
    absorbed(before, [{ channel: 'tank-float', low: true, at }], at);
    expect(switched(before, 'tank-float', at)).toMatchObject({ value: false });
  });
});
