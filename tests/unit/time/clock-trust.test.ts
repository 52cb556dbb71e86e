import { describe, expect, it } from 'vitest';
import {
  asSet,
  asUnset,
  believedNow,
  believedWall,
  confirmed,
  doubtedSince,
  inDoubt,
  looked,
  mayBeSet,
  resumedTrust,
  trustAtStart,
  type ClockTrust,
} from '../../../src/time/clock-trust.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { localClockText } from '../../../src/time/local-day.ts';
import { minute, utc } from '../../support/moments.ts';

const MINUTE = 60_000;
const NOON = utc('2026-07-14T11:00Z');

/** Both clocks `minutes` after the start, the wall clock `off` minutes ahead of a true one. */
const at = (minutes: number, off = 0): Now => ({
  monotonic: minute(minutes),
  wall: wallMillis(NOON + (minutes + off) * MINUTE),
});
const in1970 = (minutes: number): Now => ({
  monotonic: minute(minutes),
  wall: wallMillis(minutes * MINUTE),
});
const unknown = (minutes: number): Now => ({ monotonic: minute(minutes), wall: 'unknown' });

const after = (...looks: readonly Now[]): ClockTrust => looks.reduce(looked, trustAtStart(looks[0]!));
/** What is believed at the last of the looks. */
const wallAfter = (...looks: readonly Now[]): Now['wall'] => believedNow(after(...looks), looks.at(-1)!).wall;

describe('a clock that is not set', () => {
  it('a host that wakes in 1970 has no time of day', () => {
    expect(wallAfter(in1970(0), in1970(20))).toBe('unknown');
  });

  it('the last moment of 1999 is no time of day', () => {
    const now: Now = { monotonic: minute(0), wall: wallMillis(Date.UTC(2020, 0, 1) - 1) };
    expect(wallAfter(now)).toBe('unknown');
  });

  it('is believed at once when it comes right after 3 h in 1970', () => {
    expect(wallAfter(in1970(0), in1970(180), at(181))).toBe(at(181).wall);
  });

  it('may come right by hours in the first 15 min', () => {
    expect(wallAfter(at(0, -480), at(14))).toBe(at(14).wall);
  });

  it('keeps the monotonic time as it is', () => {
    const now = in1970(20);
    expect(believedNow(after(now), now).monotonic).toBe(now.monotonic);
  });

  it('a wall clock that falls back to 1970 for an hour is unknown meanwhile and believed afterwards', () => {
    expect(wallAfter(at(0), at(60), in1970(61))).toBe('unknown');
    expect(wallAfter(at(0), at(60), in1970(61), at(121))).toBe(at(121).wall);
    expect(wallAfter(at(0), at(60), unknown(61), at(121))).toBe(at(121).wall);
    expect(believedWall(after(at(0), at(60), in1970(61)), minute(61))).toBe(at(61).wall);
  });
});

describe('a clock that nothing is known to have set since the machine was started', () => {
  const unset = asUnset(trustAtStart(at(0)));
  const lookedAt = (...minutes: readonly number[]): ClockTrust =>
    minutes.reduce((trust, one) => looked(trust, at(one, -720)), unset);

  it('is not believed, however plausible it is and however long it goes evenly', () => {
    const trust = lookedAt(0, 1, 15, 600);
    expect([inDoubt(trust), believedNow(trust, at(600, -720)).wall]).toEqual([true, 'unknown']);
  });

  it('is told to people after 15 min, in which the network may set it', () => {
    expect(doubtedSince(lookedAt(0, 14), minute(14))).toBeNull();
    expect(doubtedSince(lookedAt(0, 15), minute(15))).toBe(minute(0));
    expect([14, 15].map((one) => mayBeSet(lookedAt(0, one), minute(one)))).toEqual([true, false]);
  });

  it('is believed from the next look on, and its time is known before that', () => {
    const set = asSet(looked(lookedAt(0, 1), at(2)));
    expect(believedWall(lookedAt(0, 1), minute(1))).toBe('unknown');
    expect(believedWall(set, minute(2))).toBe(at(2).wall);
  });

  it.each([
    ['once it is set, by hours and hours later', asSet],
    ['at a person’s word', confirmed],
  ])('is believed %s', (_, ended) => {
    const set = looked(ended(looked(lookedAt(0, 1), at(300))), at(301));
    expect(believedNow(set, at(301)).wall).toBe(at(301).wall);
    expect(doubtedSince(set, minute(301))).toBeNull();
  });

  it('stays so over a start of the host, and is unknown to be so after one of the machine', () => {
    const resumedAs = (boot: 'same' | 'another'): boolean =>
      resumedTrust(lookedAt(0, 1), 0, boot, at(5, -720)).isUnset;
    expect([resumedAs('same'), resumedAs('another')]).toEqual([true, false]);
  });
});

describe('a clock that steps', () => {
  it.each([
    ['3 h forth', 180],
    ['3 h back', -180],
    ['11 min forth', 11],
    ['11 min back', -11],
    ['a year forth', 365 * 1440],
  ])('%s after 15 min: nobody knows which time is right', (_, off) => {
    expect(wallAfter(at(0), at(15), at(16, off))).toBe('unknown');
  });

  it.each([10, -10, 2, -2])('%d min is too little to matter, whenever it comes', (off) => {
    expect(wallAfter(at(0), at(60), at(61, off))).toBe(at(61, off).wall);
  });

  it('a slow drift of 5 min a day for 10 days is no step', () => {
    const looks = Array.from({ length: 11 }, (_, day) => at(day * 1440, day * 5));
    expect(wallAfter(...looks)).toBe(looks.at(-1)!.wall);
  });

  it('forth and back again by 3 h is back where it was', () => {
    expect(wallAfter(at(0), at(20), at(21, 180), at(80, 180), at(81))).toBe(at(81).wall);
  });

  it('forth by 3 h and back by only 1 h is still astray', () => {
    expect(wallAfter(at(0), at(20), at(21, 180), at(81, 120))).toBe('unknown');
  });

  it('is in doubt from the moment of the step, and stays so at the next step', () => {
    const trust = after(at(0), at(20), at(21, 180), at(300, 180), at(301, 400));
    expect(inDoubt(trust)).toBe(true);
    expect(trust.steppedAt).toBe(minute(21));
  });

  it('a person’s word ends the doubt, and the time as it is counts from then on', () => {
    const trust = confirmed(after(at(0), at(20), at(21, 180)));
    expect(inDoubt(trust)).toBe(false);
    expect(believedNow(trust, at(22, 180)).wall).toBe(at(22, 180).wall);
    const next = looked(trust, at(23, 180));
    expect(believedNow(next, at(23, 180)).wall).toBe(at(23, 180).wall);
  });

  it('a step after a person’s word is a step again', () => {
    const trust = looked(confirmed(after(at(0), at(20), at(21, 180))), at(400));
    expect(inDoubt(trust)).toBe(true);
  });
});

describe('summer time', () => {
  it('is no step: from 00:59 the clock of Lisbon goes to 02:00 and the time is believed all along', () => {
    const start = utc('2026-03-29T00:00Z');
    const seen: string[] = [];
    let trust = trustAtStart({ monotonic: minute(0), wall: start });
    for (let minutes = 0; minutes <= 120; minutes += 1) {
      const now: Now = { monotonic: minute(minutes), wall: wallMillis(start + minutes * MINUTE) };
      trust = looked(trust, now);
      const believed = believedNow(trust, now).wall;
      seen.push(believed === 'unknown' ? believed : localClockText(believed, 'Europe/Lisbon'));
    }
    expect(seen.slice(58, 62)).toEqual(['00:58', '00:59', '02:00', '02:01']);
    expect(seen).not.toContain('unknown');
  });
});

describe('trust over a restart', () => {
  const good = after(at(0), at(60));

  it('a step of 3 h while nobody looked is a step, where the machine went on', () => {
    const trust = looked(resumedTrust(good, 0, 'same', at(61, 180)), at(61, 180));
    expect(inDoubt(trust)).toBe(true);
  });

  it('is the same by a monotonic clock that begins 60 min later', () => {
    const later: Now = { monotonic: minute(121), wall: at(61).wall };
    const trust = looked(resumedTrust(good, 60 * MINUTE, 'same', later), later);
    expect([inDoubt(trust), believedNow(trust, later).wall]).toEqual([false, later.wall]);
  });

  it('after a new start of the machine the clock may be set for 15 min more', () => {
    let trust = resumedTrust(good, 0, 'another', at(61, -300));
    trust = looked(looked(trust, at(61, -300)), at(70));
    expect(inDoubt(trust)).toBe(false);
  });

  it('a jump stays in doubt after a new start of the machine in which the network has set the clock', () => {
    const doubted = after(at(0), at(20), at(21, 180));
    const unset = looked(asUnset(resumedTrust(doubted, 0, 'another', at(30))), at(30));
    const set = looked(asSet(unset), at(31));
    expect([set.isUnset, inDoubt(set), doubtedSince(set, minute(31))]).toEqual([false, true, minute(21)]);
    expect(mayBeSet(unset, minute(30))).toBe(false);
  });

  it.each(['same', 'another'] as const)(
    'a doubt stays (%s start), until a person says what is right',
    (boot) => {
      const doubted = after(at(0), at(20), at(21, 180));
      let trust = resumedTrust(doubted, 0, boot, at(30, 180));
      for (const minutes of [30, 31, 300]) trust = looked(trust, at(minutes, 180));
      expect([inDoubt(trust), believedNow(trust, at(300, 180)).wall]).toEqual([true, 'unknown']);
      trust = looked(confirmed(trust), at(301, 180));
      expect(believedNow(trust, at(301, 180)).wall).toBe(at(301, 180).wall);
    },
  );
});
