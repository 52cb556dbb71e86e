import { describe, expect, it } from 'vitest';
import { afterMinutes, afterSeconds, secondsBetween } from '../../../src/time/instant.ts';
import { beganFlood, deadlineMinutes, type Flood } from '../../../src/verify/flood.ts';
import type { Sighting } from '../../../src/verify/sighting.ts';
import { nextLook, watched, type Watched } from '../../../src/verify/watched.ts';
import { farmWith } from '../farm/example.ts';
import { BLIND, NO_WATER, START, WATER, watchedThrough } from './watching.ts';

const FARM = farmWith();
const BEGUN = beganFlood({ id: 1, part: 'noon', reason: '', minutes: 20, lagMinutes: 8 }, null, START);

const look = (flood: Partial<Flood>, seen: Sighting, minutes: number): Watched =>
  watched(FARM, { ...BEGUN, ...flood }, seen, 40, true, afterMinutes(START, minutes));

describe('one look at a flood', () => {
  it('fails none of which the board has been heard again for less than a minute, and fails it from then on', () => {
    const unwatchedUntil = afterMinutes(START, 9);
    expect(look({ unwatchedUntil }, NO_WATER, 9.9)).toMatchObject({ kind: 'going', pump: 'on' });
    expect(look({ unwatchedUntil }, NO_WATER, 10)).toMatchObject({ kind: 'going', pump: 'off' });
    expect(look({}, NO_WATER, 9.9)).toMatchObject({ pump: 'off' });
  });

  it('fails none whose return can be read again for less than a minute: a meter says zero first', () => {
    const unread = { readableSince: null, lookedAt: afterMinutes(START, 9) };
    expect(look(unread, NO_WATER, 9.25)).toMatchObject({ pump: 'on' });
    const again = { ...unread, readableSince: afterMinutes(START, 9.25) };
    expect(look(again, NO_WATER, 10)).toMatchObject({ pump: 'on' });
    expect(look(again, NO_WATER, 10.25)).toMatchObject({ pump: 'off' });
    expect(look(again, BLIND, 10)).toMatchObject({ flood: { readableSince: null } });
  });

  it('keeps the pump off in a pause until its end, to the moment', () => {
    const pausing = { phase: { kind: 'pausing', endsAt: afterMinutes(START, 8.5) } } as const;
    expect(look(pausing, NO_WATER, 8.4)).toMatchObject({
      kind: 'going',
      pump: 'off',
      flood: { phase: { kind: 'pausing' } },
    });
    expect(look(pausing, NO_WATER, 8.5)).toMatchObject({ kind: 'again', flood: { retries: 1 } });
  });

  it('drains only while nothing has come, until the lag is over', () => {
    const short = { minutes: 5, phase: { kind: 'running', endsAt: afterMinutes(START, 5) } } as const;
    expect(look(short, NO_WATER, 5)).toMatchObject({
      kind: 'going',
      pump: 'off',
      flood: { phase: { kind: 'draining', endsAt: afterMinutes(START, 8) } },
    });
    expect(look(short, WATER, 5)).toMatchObject({ kind: 'over', verdict: { kind: 'confirmed' } });
    expect(look(short, BLIND, 5)).toMatchObject({ kind: 'over', verdict: { kind: 'unproven' } });
  });

  it('does not hold what shows while the pump rests against its power or its water', () => {
    const draining = {
      waterFirstAt: afterMinutes(START, 2),
      contact: 'seen',
      current: 'seen',
      mains: 'seen',
      phase: { kind: 'draining', endsAt: afterMinutes(START, 8) },
    } as const;
    const dead = { ...NO_WATER, contact: 'not-seen', current: 'not-seen', mains: 'not-seen' } as const;
    expect(look(draining, dead, 7)).toMatchObject({
      kind: 'going',
      flood: {
        contact: 'seen',
        current: 'seen',
        mains: 'seen',
        goneSince: null,
        waterFirstAt: afterMinutes(START, 2),
      },
    });
  });

  it('holds a sign of power against it from 35 s on, and keeps what was once seen', () => {
    const dark = { ...BLIND, mains: 'not-seen' } as const;
    const at = (seconds: number, flood: Partial<Flood> = {}): Watched =>
      watched(FARM, { ...BEGUN, ...flood }, dark, 40, true, afterSeconds(START, seconds));
    expect(at(34.9)).toMatchObject({ flood: { mains: 'unknown' }, pump: 'on' });
    expect(at(35)).toMatchObject({ flood: { mains: 'not-seen' }, pump: 'off' });
    expect(at(60, { mains: 'seen' })).toMatchObject({ flood: { mains: 'seen' }, pump: 'on' });
  });

  it('holds both signs of power against a flood of half a minute at its end: no shorter one can hide a dead pump', () => {
    const dark = { ...BLIND, contact: 'not-seen', current: 'not-seen' } as const;
    const found = watchedThrough(FARM, () => dark, { minutes: 0.5, dry: true });
    expect([found.verdict.kind, found.after]).toEqual(['missed', 0.5]);
  });

  it('counts no minute as read in which the return said nothing', () => {
    const before = { lookedAt: afterMinutes(START, 4), readMinutes: 4 };
    expect(look(before, BLIND, 5)).toMatchObject({ flood: { readMinutes: 4 } });
    expect(look(before, NO_WATER, 5)).toMatchObject({ flood: { readMinutes: 5 } });
  });

  it('keeps the lowest of the tank, also where it could not be read at the start or at one look', () => {
    const tank = (litres: number | null): Sighting => ({ ...WATER, tankLitres: litres });
    expect(look({}, tank(400), 5)).toMatchObject({ flood: { tankAtStart: 400, tankLowest: 400 } });
    expect(look({ tankAtStart: 500, tankLowest: 420 }, tank(430), 5)).toMatchObject({
      flood: { tankLowest: 420 },
    });
    expect(look({ tankAtStart: 500, tankLowest: 420 }, tank(410), 5)).toMatchObject({
      flood: { tankLowest: 410 },
    });
    expect(look({ tankAtStart: 500, tankLowest: 420 }, tank(null), 5)).toMatchObject({
      flood: { tankLowest: 420 },
    });
  });

  it('is due 2 min after the water has gone, but not at moments that have passed', () => {
    const next = (flood: Partial<Flood>, seconds: number): number => {
      const now = afterSeconds(START, seconds);
      return secondsBetween(now, nextLook({ ...BEGUN, ...flood }, now));
    };
    expect(next({ goneSince: afterSeconds(START, 600) }, 710)).toBeCloseTo(10);
    expect(next({ goneSince: afterSeconds(START, 600) }, 720)).toBeCloseTo(30);
    expect(next({}, 480)).toBeCloseTo(30);
  });
});

describe('the words of a flood', () => {
  it('whose board was away when its water came do not tell how long that took', () => {
    const heard = { unwatchedUntil: afterMinutes(START, 10), waterFirstAt: afterMinutes(START, 10) };
    expect(look({ ...heard, waterMinutes: 9, readMinutes: 10 }, WATER, 20)).toMatchObject({
      verdict: { kind: 'confirmed', says: 'water was back when the board was heard again' },
    });
    const before = { ...heard, waterFirstAt: afterMinutes(START, 3) };
    expect(look({ ...before, waterMinutes: 9, readMinutes: 10 }, WATER, 20)).toMatchObject({
      verdict: { says: 'water back after 3.0 min' },
    });
  });

  it('of exactly six tenths of its water are those of a whole one', () => {
    const seen = { waterFirstAt: START, readMinutes: 20, lookedAt: afterMinutes(START, 20) };
    expect(look({ ...seen, waterMinutes: 12 }, WATER, 20)).toMatchObject({ verdict: { kind: 'confirmed' } });
    expect(look({ ...seen, waterMinutes: 11.9 }, WATER, 20)).toMatchObject({ verdict: { kind: 'degraded' } });
  });

  describe('whose water nothing but the level of the tank can tell of', () => {
    const blind = { readMinutes: 0, current: 'seen', contact: 'seen', tankTells: true } as const;
    const level = { tankAtStart: 500, tankLowest: 495, levelMinutes: 19, lookedAt: afterMinutes(START, 19) };
    const sees = { ...BLIND, tankLitres: 495, current: 'seen', contact: 'seen' } as const;

    it('say that it was missed, where the tank has told of floods before and did not fall', () => {
      expect(look({ ...blind, ...level }, sees, 20)).toMatchObject({
        verdict: {
          kind: 'missed',
          says: 'the tank did not fall in 20 min',
          clue: { tankFell: 'not-seen', deadline: afterMinutes(START, 20) },
        },
      });
    });

    it('say so by the deadline where the flood is longer, and try nothing again by its word', () => {
      const longer = {
        ...level,
        minutes: 30,
        phase: { kind: 'running', endsAt: afterMinutes(START, 30) },
      } as const;
      const due = deadlineMinutes(FARM, BEGUN.lagMinutes);
      const before = { ...blind, ...longer, lookedAt: afterMinutes(START, due - 1), levelMinutes: due - 1 };
      expect(look(before, sees, due - 0.1)).toMatchObject({ kind: 'going', pump: 'on' });
      expect(look(before, sees, due)).toMatchObject({
        kind: 'over',
        verdict: { kind: 'missed', clue: { retries: 0, deadline: afterMinutes(START, due) } },
      });
      expect(look({ ...before, tankLowest: 420 }, sees, due)).toMatchObject({ kind: 'going' });
    });

    it.each<[string, Partial<Flood>]>([
      ['it has not told of floods before', { tankTells: undefined as never }],
      ['the level was read for less than eight tenths of it', { levelMinutes: 14.9 }],
      ['the flood is of 9 min', { minutes: 9 }],
      ['the return was read', { readMinutes: 1 }],
    ])('leave it unproven where %s', (_, change) => {
      expect(look({ ...blind, ...level, ...change }, sees, 20)).toMatchObject({
        verdict: { kind: 'unproven' },
      });
    });

    it('confirm it where the tank fell', () => {
      expect(look({ ...blind, ...level, tankLowest: 420 }, sees, 20)).toMatchObject({
        verdict: { kind: 'confirmed' },
      });
    });
  });

  it('without its tank at the start, or without any, do not tell whether it fell', () => {
    for (const told of [{}, { tankLitres: 500 }]) {
      const { verdict } = watchedThrough(FARM, () => NO_WATER, told);
      const tankFell = 'tankLitres' in told ? 'not-seen' : 'unknown';
      expect(verdict).toMatchObject({ kind: 'missed', clue: { tankFell } });
    }
  });
});
