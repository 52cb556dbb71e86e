import { describe, expect, it } from 'vitest';
import { momentOf } from '../../../src/alarm/facts.ts';
import { LANGUAGES } from '../../../src/alarm/language/languages.ts';
import { LANGUAGES_SPOKEN } from '../../../src/farm/languages-spoken.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { minute, utc } from '../../support/moments.ts';

const NOW = { monotonic: minute(6000), wall: wallMillis(utc('2026-07-14T12:42Z')) };
const ago = (minutes: number): ReturnType<typeof momentOf> =>
  momentOf(minute(6000 - minutes), NOW, 'Europe/Lisbon');

describe('a moment of the past', () => {
  it('is a time of day up to 20 h, and from then on so many hours ago: nobody could tell of which day', () => {
    expect(ago(20 * 60 - 1)).toEqual({ kind: 'clock', time: '17:43' });
    expect(ago(20 * 60)).toEqual({ kind: 'ago', minutes: 1200 });
    expect(ago(26 * 60 + 11)).toEqual({ kind: 'ago', minutes: 1560 });
  });

  it('is told in hours in each language', () => {
    expect(LANGUAGES_SPOKEN.map((code) => LANGUAGES[code].since(ago(26 * 60)))).toEqual([
      'for 26 h',
      'há 26 h',
      'desde hace 26 h',
      'depuis 26 h',
    ]);
  });
});
