import { describe, expect, it } from 'vitest';
import { afterMinutes, afterSeconds, secondsBetween } from '../../../src/time/instant.ts';
import { stopped } from '../../../src/verify/flood-verdict.ts';
import { beganFlood, deadlineMinutes, type Flood } from '../../../src/verify/flood.ts';
import { nextLook } from '../../../src/verify/watched.ts';
import type { Sighting } from '../../../src/verify/sighting.ts';
import { farmWith } from '../farm/example.ts';
import { BLIND, NO_WATER, START, WATER, watchedThrough, type Told } from './watching.ts';

/** Four benches of 10 L/min; shortest off is 30 s, so one retry takes 0.5 + 3 min. */
const FARM = farmWith();

type Look = (minute: number, flood: Flood) => Sighting;

const waterFrom =
  (from: number, until = Infinity, litresPerMinute = 40): Look =>
  (minute) =>
    minute >= from && minute < until ? { ...WATER, returnLitresPerMinute: litresPerMinute } : NO_WATER;
const flowing =
  (litresPerMinute: (minute: number) => number): Look =>
  (minute) =>
    minute < 2 ? NO_WATER : { ...WATER, returnLitresPerMinute: litresPerMinute(minute) };
/** Water in so many of every three minutes, and at the end. */
const waterThatCutsOut =
  (minutes: number): Look =>
  (minute) =>
    minute % 3 >= 3 - minutes || minute >= 19.5 ? WATER : NO_WATER;
const blindWith =
  (part: Partial<Sighting>): Look =>
  () => ({ ...BLIND, ...part });
const without =
  (part: Partial<Sighting>): Look =>
  () => ({ ...NO_WATER, ...part });
const tankFrom =
  (litres: number, end: number): Look =>
  (minute) => ({ ...BLIND, tankLitres: litres - ((litres - end) * Math.min(minute, 10)) / 10 });

interface Row {
  readonly says: string;
  readonly look: Look;
  readonly told?: Told;
  readonly ends: {
    readonly kind: string;
    readonly says: RegExp;
    readonly after: number;
    readonly why?: string;
  };
}

const ROWS: readonly Row[] = [
  {
    says: 'confirms a flood whose water is back after 2 min',
    look: waterFrom(2),
    ends: { kind: 'confirmed', says: /^water back after 2\.0 min$/, after: 20 },
  },
  {
    says: 'confirms with 28 L/min at the end where 40 is usual: seven tenths is not weak',
    look: waterFrom(2, Infinity, 28),
    ends: { kind: 'confirmed', says: /^water back/, after: 20 },
  },
  {
    says: 'calls 27.9 L/min where 40 is usual weak',
    look: waterFrom(2, Infinity, 27.9),
    ends: { kind: 'degraded', why: 'weak', says: /^return flow 28 L\/min, usually 40$/, after: 20 },
  },
  {
    says: 'goes by the last five minutes: 20 L/min before them is not weak',
    look: flowing((minute) => (minute <= 15 ? 20 : 40)),
    ends: { kind: 'confirmed', says: /^water back/, after: 20 },
  },
  {
    says: 'calls 20 L/min in the last five minutes weak, whatever came before',
    look: flowing((minute) => (minute <= 15 ? 40 : 20)),
    ends: { kind: 'degraded', why: 'weak', says: /^return flow 20 L\/min, usually 40$/, after: 20 },
  },
  {
    says: 'goes by the mean of them: one reading of 10 L/min at the end is not weak',
    look: flowing((minute) => (minute < 19.6 ? 40 : 10)),
    ends: { kind: 'confirmed', says: /^water back/, after: 20 },
  },
  {
    says: 'does not judge the flow of a flood of 15 min before the lag is learned: 8 min may be the lag, and 16 its double',
    look: waterFrom(3, Infinity, 27.9),
    told: { minutes: 15 },
    ends: { kind: 'confirmed', says: /^water back/, after: 15 },
  },
  {
    says: 'judges the flow of the same flood of 15 min once a lag of 3 min is learned',
    look: waterFrom(3, Infinity, 27.9),
    told: { minutes: 15, lagMinutes: 3.5 },
    ends: { kind: 'degraded', why: 'weak', says: /^return flow 28/, after: 15 },
  },
  {
    says: 'does not judge the flow of a flood of 9 min: the return is not steady before 10',
    look: waterFrom(2, Infinity, 12),
    told: { minutes: 9 },
    ends: { kind: 'confirmed', says: /^water back/, after: 9 },
  },
  {
    says: 'confirms a flood whose water shows in two of every three minutes',
    look: waterThatCutsOut(2),
    ends: { kind: 'confirmed', says: /^water back/, after: 20 },
  },
  {
    says: 'calls one cut short whose water shows in one of every three minutes: less than six tenths',
    look: waterThatCutsOut(1),
    ends: { kind: 'degraded', why: 'cut-short', says: /^water came back for only 7 of 20 min$/, after: 20 },
  },
  {
    says: 'leaves a flood unproven that nothing could see',
    look: blindWith({}),
    ends: { kind: 'unproven', says: /nothing that reads can tell/, after: 20 },
  },
  {
    says: 'leaves a flood unproven of which only the relay was seen',
    look: blindWith({ contact: 'seen' }),
    ends: { kind: 'unproven', says: /the relay closed/, after: 20 },
  },
  {
    says: 'leaves a flood unproven of which only the current was seen',
    look: blindWith({ current: 'seen' }),
    ends: { kind: 'unproven', says: /drew current/, after: 20 },
  },
  {
    says: 'leaves a flood unproven that drew current through a relay said to be open',
    look: blindWith({ current: 'seen', contact: 'not-seen' }),
    ends: { kind: 'unproven', says: /drew current/, after: 20 },
  },
  {
    says: 'confirms by the tank where nothing sees the return: it fell by 80 of the 400 L of ten minutes',
    look: tankFrom(500, 420),
    told: { tankLitres: 500 },
    ends: { kind: 'confirmed', says: /^the tank gave its water$/, after: 20 },
  },
  {
    says: 'does not take a fall of 79 L for proof',
    look: tankFrom(500, 421),
    told: { tankLitres: 500 },
    ends: { kind: 'unproven', says: /nothing that reads can tell/, after: 20 },
  },
  {
    says: 'misses a flood without water 15 min after its start: 8 of lag and 2 retries of 3.5',
    look: without({}),
    ends: { kind: 'missed', says: /15 min and 2 retries/, after: deadlineMinutes(FARM, 8) },
  },
  {
    says: 'misses after 11 min where the lag is known to be 4',
    look: without({}),
    told: { lagMinutes: 4 },
    ends: { kind: 'missed', says: /11 min and 2 retries/, after: deadlineMinutes(FARM, 4) },
  },
  {
    says: 'does not retry while the tank is dry: missed at the end of the lag',
    look: without({}),
    told: { dry: true },
    ends: { kind: 'missed', says: /8 min and 0 retries/, after: 8 },
  },
  {
    says: 'retries at 1 min where no current is drawn and nothing sees the water, and misses at 4',
    look: blindWith({ current: 'not-seen' }),
    ends: { kind: 'missed', says: /2 retries/, after: 4 },
  },
  {
    says: 'retries where the relay stays open and nothing else is fitted',
    look: blindWith({ contact: 'not-seen' }),
    ends: { kind: 'missed', says: /2 retries/, after: 4 },
  },
  {
    says: 'lets no current sensor that says nothing is drawn cut short a flood whose water is seen',
    look: (minute) => ({ ...waterFrom(3)(minute, {} as Flood), current: 'not-seen', contact: 'not-seen' }),
    ends: { kind: 'confirmed', says: /^water back after 3\.0 min$/, after: 20 },
  },
  {
    says: 'does not fail a flood of 5 min whose water is still on its way: it drains until the lag is over',
    look: waterFrom(7),
    told: { minutes: 5 },
    ends: { kind: 'confirmed', says: /^water back after 7\.0 min$/, after: 8 },
  },
  {
    says: 'fails a flood of 5 min that showed no water within the lag of 8, and its retries',
    look: without({}),
    told: { minutes: 5 },
    ends: { kind: 'missed', says: /15 min and 2 retries/, after: 15 },
  },
  {
    says: 'confirms a flood that the first retry brought back, and says so',
    look: waterFrom(10),
    ends: { kind: 'confirmed', says: /^water back after 1\.5 min, after 1 retries$/, after: 28.5 },
  },
  {
    says: 'counts the lag from the retry, also where the first water came while the pump paused',
    look: waterFrom(8.5),
    ends: { kind: 'confirmed', says: /^water back after 0\.5 min, after 1 retries$/, after: 28.5 },
  },
];

describe('watched', () => {
  for (const { says, look, told, ends } of ROWS) {
    it(says, () => {
      const { verdict, after } = watchedThrough(FARM, look, told);
      expect({ ...verdict, after }).toMatchObject({
        ...ends,
        says: expect.stringMatching(ends.says) as string,
      });
    });
  }

  it('stops for 30 s and starts again at each retry, and leaves the pump on at the miss', () => {
    const { pump } = watchedThrough(FARM, without({}));
    expect(pump).toEqual(['off at 8', 'on at 8.5', 'off at 11.5', 'on at 12']);
  });

  it('asks the pump off at 5 min of a flood of 5 while the water is on its way', () => {
    expect(watchedThrough(FARM, waterFrom(7), { minutes: 5 }).pump).toEqual(['off at 5']);
  });

  it('does not hold the first 35 s of silence against current and contact', () => {
    const late: Look = (minute) => {
      const sign = minute * 60 < 35 ? 'not-seen' : 'seen';
      return { ...BLIND, current: sign, contact: sign };
    };
    expect(watchedThrough(FARM, late)).toMatchObject({ verdict: { kind: 'unproven' }, pump: [] });
  });

  it.each([
    [9, 9],
    [4, 4],
    [3.9, null],
    [0, null],
  ])('a return of %d L/min, of 40 usual, is kept in the clue of a miss as %s', (flow, kept) => {
    const { verdict } = watchedThrough(FARM, () => ({ ...NO_WATER, returnLitresPerMinute: flow }));
    expect(verdict).toMatchObject({ kind: 'missed', clue: { trickleLitresPerMinute: kept } });
  });

  it.each([
    ['contact', { contact: 'not-seen', current: 'not-seen' }],
    ['current', { contact: 'seen', current: 'not-seen' }],
    ['neither', { contact: 'seen', current: 'seen' }],
  ] as const)('keeps what was seen of a miss as its clue: %s missing', (_, power) => {
    const { verdict } = watchedThrough(FARM, without(power));
    expect(verdict).toMatchObject({
      kind: 'missed',
      clue: { ...power, startedAt: START, deadline: afterMinutes(START, 15), retries: 2 },
    });
  });
});

describe('stopped', () => {
  const flood = (waterMinutes: number): Flood => ({
    ...beganFlood({ id: 1, part: 'night', reason: '', minutes: 20, lagMinutes: 8 }, null, START),
    waterMinutes,
  });
  it.each([
    [9.9, 'withheld'],
    [10, 'degraded'],
  ])('a flood of 20 min with %d min of water is %s', (waterMinutes, kind) => {
    const verdict = stopped(flood(waterMinutes), 'held by Ana', afterMinutes(START, 12));
    expect(verdict).toMatchObject({ kind, says: 'stopped after 12 of 20 min: held by Ana' });
  });
});

describe('nextLook', () => {
  const flood = beganFlood({ id: 1, part: 'night', reason: '', minutes: 20, lagMinutes: 8 }, null, START);
  it.each([
    [0, 30],
    // At 8 min the first try may have failed, which is when the pump is to stop.
    [8 * 60 - 11, 11],
    [20 * 60 - 12, 12],
    [20 * 60, 1],
    [20 * 60 + 90, 1],
  ])('%d s after the start of 20 min it looks again in %d s', (gone, next) => {
    const now = afterSeconds(START, gone);
    expect(secondsBetween(now, nextLook(flood, now))).toBe(next);
  });
});
