import { describe, expect, it } from 'vitest';
import { NOT_UNDERSTOOD, NOTHING_SEEN } from '../../../src/alarm/language/text-answers.ts';
import { gsm7Places, toGsm7 } from '../../../src/alarm/language/gsm7.ts';
import { ANSWERS_OF_A_DAY } from '../../../src/delivery/delivery-bounds.ts';
import { restarted } from '../../../src/delivery/delivery-restart.ts';
import { LANGUAGES_SPOKEN } from '../../../src/farm/languages-spoken.ts';
import {
  ANA,
  drive,
  GSM,
  nowAt,
  RAISED,
  RUI,
  settingsWith,
  told,
  WELL,
  type Network,
} from './virtual-network.ts';

type Scheduled = Parameters<typeof drive>[2][number];

const SETTINGS = settingsWith([GSM]);
const HOUR = 3600;
const came = (text: string, atSeconds: number, from = ANA.phone ?? ''): Scheduled => ({
  atSeconds,
  event: { kind: 'text-came', channel: 'modem', from, text },
});
/** One every so many seconds. */
const flood = (text: string, everySeconds: number, forSeconds: number): readonly Scheduled[] =>
  Array.from({ length: Math.floor(forSeconds / everySeconds) }, (_, place) =>
    came(text, 5 + place * everySeconds),
  );
const answersAt = ({ begun }: Network): readonly number[] =>
  begun.flatMap(({ message, atSeconds }) => (message.purpose === 'answer' ? [atSeconds] : []));
const gaps = (moments: readonly number[]): readonly number[] =>
  moments.slice(1).map((at, place) => at - (moments[place] ?? 0));

describe.each(['?', 'ok'])('300 forged "%s" in an hour', (text) => {
  const run = drive(SETTINGS, () => WELL, flood(text, 12, HOUR), HOUR + 120);

  it('make 20 answers, a minute apart at least', () => {
    expect(answersAt(run)).toHaveLength(ANSWERS_OF_A_DAY.state.most);
    expect(Math.min(...gaps(answersAt(run)))).toBeGreaterThanOrEqual(60);
  });

  it('hinder no alarm: it goes out within 5 s, to the forged number as well', () => {
    const alarmed = drive(SETTINGS, () => WELL, [...flood(text, 12, HOUR), told(RAISED, 1800)], HOUR + 120);
    const call = alarmed.begun.find(({ message }) => message.purpose === 'call');
    expect(call?.message.to?.name).toBe('Ana');
    expect((call?.atSeconds ?? Infinity) - 1800).toBeLessThanOrEqual(5);
  });

  it('take nothing from the answers of another person', () => {
    const both = drive(SETTINGS, () => WELL, [...flood(text, 12, HOUR), came('?', 1800, RUI.phone)], HOUR);
    expect(both.begun.filter(({ message }) => message.to?.name === 'Rui')).toHaveLength(1);
  });
});

describe('the answers of a day', () => {
  it('begin anew 24 h later, and outlive a restart until then', () => {
    const day = 24 * HOUR;
    const first = drive(SETTINGS, () => WELL, flood('?', 12, HOUR), 2 * HOUR);
    const state = restarted(
      { state: first.state, at: nowAt(2 * HOUR), awayMinutes: 0 },
      SETTINGS,
      nowAt(2 * HOUR),
    );
    const on = drive(
      SETTINGS,
      () => WELL,
      [came('?', 3 * HOUR), came('?', day + HOUR)],
      day + 2 * HOUR,
      undefined,
      state,
    );
    expect(answersAt(on)).toEqual([day + HOUR]);
  });

  it('are forgotten over a restart of whoever is listed no more', () => {
    const first = drive(SETTINGS, () => WELL, [came('?', 5)], 60);
    const alone = settingsWith([GSM], [RUI]);
    expect(
      restarted({ state: first.state, at: nowAt(60), awayMinutes: 0 }, alone, nowAt(60)).answered,
    ).toEqual({});
  });

  it('are not lost for one who asks twice within a minute: the second waits for its end', () => {
    const run = drive(SETTINGS, () => WELL, [came('?', 5), came('ok', 20)], 200);
    expect(run.heard.filter(({ kind }) => kind === 'acknowledge')).toMatchObject([{ atSeconds: 20 }]);
    expect(answersAt(run)).toEqual([5, 65]);
  });
});

describe('a machine at a listed number that answers each text', () => {
  it('is told what is understood at most once an hour and 4 times a day', () => {
    const run = drive(
      SETTINGS,
      () => WELL,
      flood('I am driving and answer later.', 30, 24 * HOUR),
      24 * HOUR,
    );
    expect(answersAt(run)).toHaveLength(4);
    expect(Math.min(...gaps(answersAt(run)))).toBeGreaterThanOrEqual(HOUR);
  });

  it('does not keep the person from being answered', () => {
    const run = drive(SETTINGS, () => WELL, [...flood('I am driving.', 30, HOUR), came('?', 1801)], HOUR);
    expect(answersAt(run)).toEqual([5, 1801]);
  });
});

describe('what is understood', () => {
  it.each(LANGUAGES_SPOKEN)('is one text message in %s, and is said in that language', (language) => {
    const run = drive({ ...SETTINGS, language }, () => WELL, [came('estado', 5)], 60);
    expect(run.begun[0]?.message.text).toBe(NOT_UNDERSTOOD[language]);
    expect(gsm7Places(toGsm7(NOT_UNDERSTOOD[language]))).toBeLessThanOrEqual(160);
  });

  it.each(LANGUAGES_SPOKEN)('to an "ok" that finds nothing says so in %s', (language) => {
    const run = drive({ ...SETTINGS, language }, () => WELL, [came('ok', 5)], 60);
    expect(run.begun.at(-1)?.message.text).toContain(NOTHING_SEEN[language]);
    expect(new Set(Object.values(NOTHING_SEEN)).size).toBe(4);
  });

  it('is in four languages four sentences', () => {
    expect(new Set(Object.values(NOT_UNDERSTOOD)).size).toBe(LANGUAGES_SPOKEN.length);
  });
});
