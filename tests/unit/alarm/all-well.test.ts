import { describe, expect, it } from 'vitest';
import { allWell, NO_DAY, withVerdicts, type DayKept } from '../../../src/alarm/all-well.ts';
import type { Alarm } from '../../../src/alarm/alarm.ts';
import { gsm7Places, toGsm7 } from '../../../src/alarm/language/gsm7.ts';
import { LANGUAGES_SPOKEN } from '../../../src/farm/languages-spoken.ts';
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
const FARM = { farm: 'Ribeira', language: 'en' } as const;
const FACTS = { tank: 420, strengthMillisiemensPerCm: 1.62, minutesLeft: 205.9 };

const said = (
  now: Now,
  asked: { readonly kept?: DayKept; readonly alarms?: readonly Alarm[]; readonly atMinute?: number } = {},
): ReturnType<typeof allWell> =>
  allWell({
    atMinute: 450,
    farm: FARM,
    kept: NO_DAY,
    alarms: [],
    day: DAY,
    facts: () => FACTS,
    ...asked,
    now,
  });

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
        allWell({
          atMinute: 450,
          farm: FARM,
          kept: NO_DAY,
          alarms: [],
          day,
          facts: () => FACTS,
          now: late(minutes, day),
        }).call?.kind;
      expect([-1, 0, 59, 60].map(call)).toEqual([undefined, 'all-well', 'all-well', undefined]);
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

  it('does not come where nobody knows the time, or the day', () => {
    expect(said({ monotonic: MONOTONIC, wall: 'unknown' }).call).toBeNull();
    const dayless = {
      atMinute: 450,
      farm: FARM,
      kept: NO_DAY,
      alarms: [],
      day: null,
      facts: () => FACTS,
      now: late(0),
    };
    expect(allWell(dayless)).toEqual({ kept: NO_DAY, call: null });
  });

  it('is the least of calls: to the first person, about no alarm, with the minutes left', () => {
    expect(said(late(0)).call).toMatchObject({
      alarm: null,
      priority: 'low',
      card: null,
      also: [],
      rung: 0,
      minutesLeft: 205,
    });
  });

  it('says floods, tank, strength and time left as they are known', () => {
    const kept = withVerdicts(NO_DAY, ['confirmed', 'confirmed', 'degraded', 'unproven'], MONOTONIC);
    expect(said(late(0), { kept }).call?.text).toBe(
      'All well. 2 floods confirmed in 24 h, 1 weak, 1 unproven, 0 missed. Tank 420 L. ' +
        'Strength 1.6 mS/cm. Without the pump: about 3 h 25 min left.',
    );
    const unknown = { tank: 'well' as const, strengthMillisiemensPerCm: null, minutesLeft: 1440 };
    expect(
      allWell({
        atMinute: 450,
        farm: FARM,
        kept: NO_DAY,
        alarms: [],
        day: DAY,
        now: late(0),
        facts: () => unknown,
      }).call?.text,
    ).toBe(
      'All well. 0 floods confirmed in 24 h, 0 missed. Tank well. Without the pump: more than a day left.',
    );
  });

  it('says nothing of a tank at which nothing looks', () => {
    const facts = { ...FACTS, tank: null };
    const asked = {
      farm: FARM,
      kept: NO_DAY,
      alarms: [],
      day: DAY,
      now: late(0),
      facts: () => facts,
      atMinute: 450,
    };
    expect(allWell(asked).call?.text).toBe(
      'All well. 0 floods confirmed in 24 h, 0 missed. Strength 1.6 mS/cm. Without the pump: about 3 h 25 min left.',
    );
  });

  it('counts the verdicts of the last 24 h, and remembers at most 400', () => {
    const old = withVerdicts(NO_DAY, ['missed'], minute(3000 - 24 * 60));
    const kept = withVerdicts(old, ['confirmed'], MONOTONIC);
    expect(said(late(0), { kept }).call?.text).toMatch(/^All well\. 1 flood confirmed in 24 h, 0 missed\./);
    const [dayOld, younger] = [24 * 60, 24 * 60 - 0.1].map((minutes) =>
      withVerdicts(NO_DAY, ['missed'], minute(3000 - minutes)),
    );
    expect(withVerdicts(dayOld!, ['confirmed'], MONOTONIC).verdicts).toHaveLength(1);
    expect(withVerdicts(younger!, ['confirmed'], MONOTONIC).verdicts).toHaveLength(2);
    expect(withVerdicts(younger!, [], minute(9000))).toBe(younger);
    expect(said(late(0), { kept: dayOld! }).call?.text).toContain(' 0 missed.');
    expect(said(late(0), { kept: younger! }).call?.text).toContain(' 1 missed.');
    const many = withVerdicts(
      NO_DAY,
      Array.from({ length: 500 }, () => 'confirmed' as const),
      MONOTONIC,
    );
    expect(many.verdicts).toHaveLength(400);
  });

  it('leaves out of a message what does not fit whole into 160 places, and what nobody knows', () => {
    const busy = (['degraded', 'unproven', 'missed', 'withheld', 'confirmed'] as const).flatMap((kind) =>
      Array.from({ length: 80 }, () => kind),
    );
    const message = (tank: number, strengthMillisiemensPerCm: number | null): string =>
      allWell({
        atMinute: 450,
        farm: FARM,
        kept: withVerdicts(NO_DAY, busy, MONOTONIC),
        alarms: [],
        day: DAY,
        now: late(0),
        facts: () => ({ ...FACTS, tank, strengthMillisiemensPerCm }),
      }).call!.message;
    const start =
      'Ribeira: All well. 80 floods confirmed in 24 h, 80 weak, 80 unproven, 80 missed, 80 withheld. Without the pump: about 3 h 25 min left.';
    expect(message(420, null)).toBe(`${start} Tank 420 L.`);
    const alone = gsm7Places(`${start} Tank  L.`);
    const [fits, tooLong] = [160 - alone, 161 - alone].map((digits) => Number('1'.repeat(digits)));
    expect(message(fits!, 1.6)).toBe(`${start} Tank ${fits} L.`);
    expect(gsm7Places(message(fits!, 1.6))).toBe(160);
    expect(message(tooLong!, 1.6)).toBe(`${start} Strength 1.6 mS/cm.`);
  });

  const SAYS = {
    en: [
      'All well. 2 floods confirmed in 24 h, 1 weak, 0 missed. Tank 420 L. Strength 1.6 mS/cm. Without the pump: about 3 h 25 min left.',
      'Ribeira: All well. 2 floods confirmed in 24 h, 1 weak, 0 missed. Without the pump: about 3 h 25 min left. Tank 420 L. Strength 1.6 mS/cm.',
    ],
    pt: [
      'Está tudo bem. 2 regas confirmadas em 24 h, 1 fraca, 0 falhadas. Depósito 420 L. Força 1,6 mS/cm. Sem a bomba: cerca de 3 h 25 min.',
      'Ribeira: Esta tudo bem. 2 regas confirmadas em 24 h, 1 fraca, 0 falhadas. Sem a bomba: cerca de 3 h 25 min. Deposito 420 L. Força 1,6 mS/cm.',
    ],
    es: [
      'Todo bien. 2 riegos confirmados en 24 h, 1 flojo, 0 fallidos. Depósito 420 L. Fuerza 1,6 mS/cm. Sin la bomba: unos 3 h 25 min.',
      'Ribeira: Todo bien. 2 riegos confirmados en 24 h, 1 flojo, 0 fallidos. Sin la bomba: unos 3 h 25 min. Deposito 420 L. Fuerza 1,6 mS/cm.',
    ],
    fr: [
      'Tout va bien. 2 arrosages confirmés en 24 h, 1 faible, 0 manqué. Cuve 420 L. Force 1,6 mS/cm. Sans la pompe : environ 3 h 25 min.',
      'Ribeira: Tout va bien. 2 arrosages confirmés en 24 h, 1 faible, 0 manqué. Sans la pompe : environ 3 h 25 min. Cuve 420 L. Force 1,6 mS/cm.',
    ],
  } as const;

  it.each(LANGUAGES_SPOKEN)('is said in %s, in full and in at most 160 places', (language) => {
    const kept = withVerdicts(NO_DAY, ['confirmed', 'confirmed', 'degraded'], MONOTONIC);
    const word = (farm: string, before: DayKept): { text: string; message: string } =>
      allWell({
        atMinute: 450,
        farm: { farm, language },
        kept: before,
        alarms: [],
        day: DAY,
        now: late(0),
        facts: () => FACTS,
      }).call!;
    const { text, message } = word('Ribeira', kept);
    expect([text, message]).toEqual([SAYS[language][0], toGsm7(SAYS[language][1])]);
    const busy = (['degraded', 'unproven', 'missed', 'withheld', 'confirmed'] as const).flatMap((kind) =>
      Array.from({ length: 80 }, () => kind),
    );
    const long = word('[€]'.repeat(13), withVerdicts(NO_DAY, busy, MONOTONIC)).message;
    expect(gsm7Places(long)).toBeLessThanOrEqual(160);
    expect(long).toMatch(/80.*80.*80.*80.*80/);
  });
});
