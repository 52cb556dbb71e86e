import { describe, expect, it } from 'vitest';
import { allWell, NO_DAY, withVerdicts, type DayKept } from '../../../src/alarm/all-well.ts';
import type { Alarm } from '../../../src/alarm/alarm.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { localClockInstant, localDayOn } from '../../../src/time/local-day.ts';
import { minute } from '../../support/moments.ts';
import { alarmIn, cardOf } from './made-alarms.ts';

const DAY = localDayOn('2026-07-14', 'Europe/Lisbon');
const MONOTONIC = minute(3000);
/** So many minutes after 7:30 by the clock of the farm. */
const late = (minutes: number, day = DAY): Now => ({
  monotonic: MONOTONIC,
  wall: wallMillis(localClockInstant(day, 450) + minutes * 60_000),
});
const FACTS = { tank: '420 L', strengthMillisiemensPerCm: 1.62, minutesLeft: 205.9 };

const said = (
  now: Now,
  asked: { readonly kept?: DayKept; readonly alarms?: readonly Alarm[]; readonly atMinute?: number } = {},
): ReturnType<typeof allWell> =>
  allWell({ kept: NO_DAY, alarms: [], day: DAY, facts: () => FACTS, ...asked, now });

describe('the daily word that all is well', () => {
  it('comes from 7:30 on by the clock of the farm, once a day, and not after 8:30', () => {
    expect([-1, 0, 59, 60].map((minutes) => said(late(minutes)).call?.kind)).toEqual([
      undefined,
      'all-well',
      'all-well',
      undefined,
    ]);
    const { kept } = said(late(0));
    expect([kept.saidOn, said(late(5), { kept }).call]).toEqual(['2026-07-14', null]);
  });

  it('comes at another time where the farm says so', () => {
    const noon = { atMinute: 12 * 60 };
    expect(said(late(0), noon).call).toBeNull();
    expect(said(late(4.5 * 60), noon).call?.kind).toBe('all-well');
  });

  it('comes at 7:30 also on the days on which the clocks change', () => {
    for (const date of ['2026-03-29', '2026-10-25']) {
      const day = localDayOn(date, 'Europe/Lisbon');
      const call = (minutes: number): unknown =>
        allWell({ kept: NO_DAY, alarms: [], day, facts: () => FACTS, now: late(minutes, day) }).call?.kind;
      expect([call(-1), call(0)]).toEqual([undefined, 'all-well']);
    }
  });

  it('does not come while an alarm stands, put off or not; one that is over does not keep it back', () => {
    const card = cardOf('not-recording');
    const word = (state: Alarm['state']): unknown =>
      said(late(0), { alarms: [alarmIn(state, card, minute(0))] }).call?.kind;
    expect([
      word('active-unacknowledged'),
      word('active-acknowledged'),
      word('shelved'),
      word('returned-unacknowledged'),
    ]).toEqual([undefined, undefined, undefined, 'all-well']);
  });

  it('does not come where nobody knows the time', () => {
    expect(said({ monotonic: MONOTONIC, wall: 'unknown' }).call).toBeNull();
  });

  it('says floods, tank, strength and time left as they are known', () => {
    const kept = withVerdicts(NO_DAY, ['confirmed', 'confirmed', 'degraded', 'unproven'], MONOTONIC);
    expect(said(late(0), { kept }).call?.text).toBe(
      'All well. 2 floods confirmed in 24 h, 1 weak, 1 unproven, 0 missed. Tank 420 L. ' +
        'Strength 1.6 mS/cm. Without the pump: about 3 h 25 min left.',
    );
    const unknown = { tank: 'well', strengthMillisiemensPerCm: null, minutesLeft: 1440 };
    expect(
      allWell({ kept: NO_DAY, alarms: [], day: DAY, now: late(0), facts: () => unknown }).call?.text,
    ).toBe(
      'All well. 0 floods confirmed in 24 h, 0 missed. Tank well. Without the pump: more than a day left.',
    );
  });

  it('counts the verdicts of the last 24 h, and remembers at most 400', () => {
    const old = withVerdicts(NO_DAY, ['missed'], minute(3000 - 24 * 60));
    const kept = withVerdicts(old, ['confirmed'], MONOTONIC);
    expect(said(late(0), { kept }).call?.text).toMatch(/^All well\. 1 flood confirmed in 24 h, 0 missed\./);
    const many = withVerdicts(
      NO_DAY,
      Array.from({ length: 500 }, () => 'confirmed' as const),
      MONOTONIC,
    );
    expect(many.verdicts).toHaveLength(400);
  });
});
