import { describe, expect, it } from 'vitest';
import { boundaryInstant, partSpans, type SunPlace } from '../../../src/farm/day-boundaries.ts';
import type { DayPart } from '../../../src/farm/farm.ts';
import { readBoundary, type Boundary } from '../../../src/farm/schema.ts';
import { dayAfter, localClockText, localDayOn, type LocalDay } from '../../../src/time/local-day.ts';

const at = (text: string): Boundary => {
  const boundary = readBoundary(text);
  if (boundary === null) throw new Error(`no boundary: ${text}`);
  return boundary;
};

/** A plan whose parts begin at these boundaries. */
const planOf = (...starts: readonly string[]): readonly DayPart[] =>
  starts.map((from, place) => ({
    name: `from ${from}`,
    from: at(from),
    to: at(starts[(place + 1) % starts.length]!),
    pace: { kind: 'rest', restMinutes: 30 },
    floodMinutes: 20,
  }));

const daysOf2026 = (timeZone: string): readonly LocalDay[] => {
  const days = [localDayOn('2026-01-01', timeZone)];
  while (days.length < 365) days.push(dayAfter(days.at(-1)!));
  return days;
};

const RIBEIRA = { latitudeDegrees: 37.1, longitudeDegrees: -8 };
const PLACES: readonly (readonly [timeZone: string, place: SunPlace])[] = [
  ['Europe/Lisbon', RIBEIRA],
  ['America/Sao_Paulo', { latitudeDegrees: -23.5, longitudeDegrees: -46.6 }],
  ['Australia/Lord_Howe', { latitudeDegrees: -31.6, longitudeDegrees: 159.1 }],
  ['Asia/Kolkata', { latitudeDegrees: 18.5, longitudeDegrees: 73.9 }],
  ['Europe/Oslo', { latitudeDegrees: 69.6, longitudeDegrees: 18.9 }],
  ['Africa/Cairo', { latitudeDegrees: 30, longitudeDegrees: 31.2 }],
];

const PLANS = {
  'clock and sun': planOf('06:00', '08:00', '16:00', 'sunset+00:30'),
  'night first': planOf('22:00', '06:00', '12:00'),
  'sun only': planOf('sunrise', 'sunset'),
  'one part from 06:00 to 06:00': planOf('06:00'),
  'one part from midnight': planOf('00:00'),
  'one part from sunset': planOf('sunset'),
  'late sunset over midnight': planOf('12:00', 'sunset+05:00', '05:00'),
  'ends inside the skipped hour': planOf('01:15', '01:45', '02:00', '02:15', '12:00'),
};

const clockOf = (day: LocalDay, instant: number): string =>
  localClockText(instant as LocalDay['start'], day.timeZone);

describe('partSpans', () => {
  for (const [timeZone, place] of PLACES) {
    for (const [name, plan] of Object.entries(PLANS)) {
      it(`covers every local day of 2026 in ${timeZone} without gap or overlap: ${name}`, () => {
        for (const day of daysOf2026(timeZone)) {
          const spans = partSpans(plan, place, day);
          expect(spans.map((span) => span.start)).toEqual([
            day.start,
            ...spans.slice(0, -1).map((span) => span.end),
          ]);
          expect(spans.at(-1)?.end).toBe(day.end);
          for (const { part, start, end, wholeStart, wholeEnd } of spans) {
            expect(start).toBeLessThan(end);
            expect(wholeStart).toBeLessThanOrEqual(start);
            expect(wholeEnd).toBeGreaterThanOrEqual(end);
            expect(plan).toContain(part);
          }
        }
      });
    }
  }

  it('gives the piece after midnight and the piece before it of a night that wraps', () => {
    const day = localDayOn('2026-07-14', 'Europe/Lisbon');
    const spans = partSpans(PLANS['night first'], RIBEIRA, day);
    expect(
      spans.map(({ part, start, wholeStart, wholeEnd }) => [
        part.name,
        clockOf(day, start),
        clockOf(day, wholeStart),
        clockOf(day, wholeEnd),
      ]),
    ).toEqual([
      ['from 22:00', '00:00', '22:00', '06:00'],
      ['from 06:00', '06:00', '06:00', '12:00'],
      ['from 12:00', '12:00', '12:00', '22:00'],
      ['from 22:00', '22:00', '22:00', '06:00'],
    ]);
    expect(spans[0]!.wholeEnd - spans[0]!.wholeStart).toBe(8 * 3_600_000);
    expect(spans[3]!.wholeStart).toBe(spans[3]!.start);
  });

  it('the pieces of neighbouring days belong to one whole: the night before a clock change is 7 h long', () => {
    const before = localDayOn('2026-03-28', 'Europe/Lisbon');
    const last = partSpans(PLANS['night first'], RIBEIRA, before).at(-1)!;
    const first = partSpans(PLANS['night first'], RIBEIRA, dayAfter(before))[0]!;
    expect([first.wholeStart, first.wholeEnd]).toEqual([last.wholeStart, last.wholeEnd]);
    expect(last.wholeEnd - last.wholeStart).toBe(7 * 3_600_000);
  });

  it('the whole parts of a year follow one another, each once', () => {
    const wholes = new Map<number, number>();
    const days = daysOf2026('Europe/Lisbon');
    for (const day of days) {
      for (const { wholeStart, wholeEnd } of partSpans(PLANS['clock and sun'], RIBEIRA, day)) {
        wholes.set(wholeStart, wholeEnd);
      }
    }
    const starts = [...wholes.keys()];
    expect(starts.slice(1)).toEqual([...wholes.values()].slice(0, -1));
    expect(wholes.size).toBe(365 * 4 + 1);
  });

  it('leaves out a night without time in polar summer and a day without time in polar winter', () => {
    const tromso = { latitudeDegrees: 69.6, longitudeDegrees: 18.9 };
    const namesOn = (date: string): readonly string[] =>
      partSpans(PLANS['sun only'], tromso, localDayOn(date, 'Europe/Oslo'))
        .filter(({ start, end }) => end - start > 120_000)
        .map((span) => span.part.name);
    expect(new Set(namesOn('2026-06-21'))).toEqual(new Set(['from sunrise']));
    expect(new Set(namesOn('2026-12-21'))).toEqual(new Set(['from sunset']));
    expect(namesOn('2026-03-21')).toEqual(['from sunset', 'from sunrise', 'from sunset']);
  });

  it('an evening part that begins after midnight in summer keeps its place in the plan', () => {
    const day = localDayOn('2026-06-21', 'Europe/Lisbon');
    const names = partSpans(PLANS['late sunset over midnight'], RIBEIRA, day).map((span) => span.part.name);
    expect(names).toEqual(['from 12:00', 'from sunset+05:00', 'from 05:00', 'from 12:00']);
  });
});

describe('boundaryInstant', () => {
  it('a time inside the skipped hour is the moment of the jump, 02:00 in Lisbon', () => {
    const day = localDayOn('2026-03-29', 'Europe/Lisbon');
    const jump = Date.UTC(2026, 2, 29, 1);
    for (const text of ['01:00', '01:15', '01:59', '02:00']) {
      expect(boundaryInstant(at(text), day, RIBEIRA)).toBe(jump);
    }
    expect(boundaryInstant(at('02:15'), day, RIBEIRA)).toBe(jump + 15 * 60_000);
    expect(boundaryInstant(at('00:45'), day, RIBEIRA)).toBe(jump - 15 * 60_000);
  });

  it('a time inside the skipped half hour of Lord Howe is the moment of the jump', () => {
    const day = localDayOn('2026-10-04', 'Australia/Lord_Howe');
    const place = { latitudeDegrees: -31.6, longitudeDegrees: 159.1 };
    expect(boundaryInstant(at('02:10'), day, place)).toBe(boundaryInstant(at('02:30'), day, place));
  });

  it('sunset+00:30 is 30 minutes after sunset, about 20:52 in Ribeira on 14 July', () => {
    const day = localDayOn('2026-07-14', 'Europe/Lisbon');
    const sunset = boundaryInstant(at('sunset'), day, RIBEIRA);
    expect(boundaryInstant(at('sunset+00:30'), day, RIBEIRA) - sunset).toBe(30 * 60_000);
    expect(boundaryInstant(at('sunset-01:15'), day, RIBEIRA) - sunset).toBe(-75 * 60_000);
    // 20:51 by any almanac for this place; a minute of doubt either way.
    expect(Math.abs(sunset - Date.UTC(2026, 6, 14, 19, 51))).toBeLessThan(90_000);
  });
});
