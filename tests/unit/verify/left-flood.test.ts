import { describe, expect, it } from 'vitest';
import type { Kept } from '../../../src/ports/board.ts';
import { beganFlood, type Flood } from '../../../src/verify/flood.ts';
import { boardTold, openUntil, unheardVerdict, type BoardTold } from '../../../src/verify/left-flood.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute } from '../../support/moments.ts';
import { keptRun, NOTHING_KEPT, running } from './kept.ts';

/** Begun at 100 min for 20 min; lost at some time in it. */
const FLOOD: Flood = beganFlood(
  { id: 7, part: 'noon', reason: 'flood now', minutes: 20, lagMinutes: 8 },
  null,
  minute(100),
);
const WET: Flood = { ...FLOOD, waterFirstAt: minute(104), waterMinutes: 2, readMinutes: 6 };
const PAUSING: Flood = { ...FLOOD, phase: { kind: 'pausing', endsAt: minute(108.5) } };
const DRAINING: Flood = { ...FLOOD, phase: { kind: 'draining', endsAt: minute(108) } };

const told = (kept: Partial<Kept>, flood: Flood = FLOOD, now = 125): BoardTold =>
  boardTold(exampleFarm, flood, { ...NOTHING_KEPT, ...kept }, 40, minute(now));
/** What it comes to: a verdict, or what goes on. */
const outcome = (kept: Partial<Kept>, flood: Flood = FLOOD, now = 125): string => {
  const found = told(kept, flood, now);
  return found.kind === 'over' ? found.verdict.kind : found.kind;
};

const HOSTS = { begunBy: 'host' } as const;

describe('a flood that was left to the board, by what the board tells', () => {
  it.each<readonly [says: string, kept: Partial<Kept>, flood: Flood, comesTo: string]>([
    ['ran out its 20 min and was confirmed', { runs: [keptRun(100, HOSTS)] }, FLOOD, 'confirmed'],
    [
      'unproven, unseen here too',
      { runs: [keptRun(100, { ...HOSTS, verdict: 'unproven' })] },
      FLOOD,
      'unproven',
    ],
    [
      'unproven, its water seen here',
      { runs: [keptRun(100, { ...HOSTS, verdict: 'unproven' })] },
      WET,
      'confirmed',
    ],
    ['missed', { runs: [keptRun(100, { ...HOSTS, verdict: 'missed' })] }, FLOOD, 'missed'],
    [
      'stopped after 4 min',
      { runs: [keptRun(100, { seconds: 240, verdict: 'cut-short' })] },
      FLOOD,
      'degraded',
    ],
    ['no more than a sip', { runs: [keptRun(100, { seconds: 20, verdict: 'sip' })] }, FLOOD, 'degraded'],
    [
      'stopped, and made whole by a second run',
      { runs: [keptRun(100, { seconds: 240, verdict: 'cut-short' }), keptRun(104.5)] },
      FLOOD,
      'confirmed',
    ],
    [
      'missed, and tried again at this moment',
      { runs: [keptRun(100, { verdict: 'missed' })], running: running(122, 142) },
      FLOOD,
      'runs',
    ],
    ['running still', { running: running(100, 130) }, FLOOD, 'runs'],
    [
      'ended under this host’s lease',
      { runs: [keptRun(100, { ...HOSTS, verdict: 'judged-by-host' })] },
      FLOOD,
      'unproven',
    ],
    [
      'the same, its water seen here',
      { runs: [keptRun(100, { ...HOSTS, verdict: 'judged-by-host' })] },
      WET,
      'confirmed',
    ],
    ['nothing: the pause goes on', {}, PAUSING, 'rests'],
    ['nothing: its water is waited for', {}, DRAINING, 'rests'],
    ['a flood in place of the retry', { runs: [keptRun(109)] }, PAUSING, 'confirmed'],
    ['nothing at all of a run that must have been', {}, FLOOD, 'unproven'],
    ['only an older flood', { runs: [keptRun(55)] }, FLOOD, 'unproven'],
  ])('%s', (_, kept, flood, comesTo) => {
    expect(outcome(kept, flood)).toBe(comesTo);
  });

  it.each<readonly [kept: Partial<Kept>, flood: Flood, says: string]>([
    [{ runs: [keptRun(100, HOSTS)] }, FLOOD, 'the board saw its water come back, in 20 min'],
    [{ runs: [keptRun(100, HOSTS)] }, WET, 'the board saw its water come back, in 20 min'],
    [
      { runs: [keptRun(100, { verdict: 'unproven' }), keptRun(121)] },
      FLOOD,
      'the board saw its water come back, in 20 min',
    ],
    [
      { runs: [keptRun(100, { verdict: 'unproven' })] },
      FLOOD,
      'the board gave it; nobody saw whether its water came back',
    ],
    [{ runs: [keptRun(100, { verdict: 'unproven' })] }, WET, 'water back after 4.0 min'],
    [{ runs: [keptRun(100, { seconds: 20, verdict: 'sip' })] }, FLOOD, 'the board gave only a sip'],
    [
      { runs: [keptRun(100, { ...HOSTS, verdict: 'judged-by-host' })] },
      FLOOD,
      'the board went on with it, and nobody saw whether water came back',
    ],
    [{}, FLOOD, 'the board has forgotten how it ended'],
  ])('says so in its verdict: %j', (kept, flood, says) => {
    expect(told(kept, flood)).toMatchObject({ verdict: { says } });
  });

  it('is owed where nobody knows how it ended, and only there', () => {
    expect(told({})).toMatchObject({ owed: 'nobody knows how the last one ended' });
    expect(told({ runs: [keptRun(100, HOSTS)] })).toMatchObject({ owed: null });
  });

  it('runs on to the end that this host had given it, unwatched until now', () => {
    expect(told({ running: running(100, 117) }, WET, 112)).toMatchObject({
      kind: 'runs',
      flood: {
        attemptAt: minute(100),
        phase: { kind: 'running', endsAt: minute(120) },
        waterFirstAt: minute(104),
        unwatchedUntil: minute(112),
        retries: 0,
      },
    });
  });

  it('begun anew by the board is its next try, to the end of the board’s', () => {
    expect(told({ running: running(111, 131) }, WET, 112)).toMatchObject({
      kind: 'runs',
      flood: { attemptAt: minute(111), phase: { endsAt: minute(131) }, waterFirstAt: null, retries: 1 },
    });
  });

  it('is known again though the board’s clock is 5 % off: 70 s and 5 s of 25 min, and not 90 s', () => {
    const late = (seconds: number): string => outcome({ runs: [keptRun(100 - seconds / 60, HOSTS)] });
    expect([late(70), late(-79), late(90)]).toEqual(['confirmed', 'confirmed', 'unproven']);
  });
});

describe('a flood that nobody tells of', () => {
  it('stays open to its end, and to its deadline of 8 min and two retries of 3.5 if that is later', () => {
    const short = { ...FLOOD, phase: { kind: 'running', endsAt: minute(110) } } as const;
    expect([openUntil(exampleFarm, FLOOD), openUntil(exampleFarm, short)]).toEqual([
      minute(120),
      minute(115),
    ]);
  });

  it('says what nobody knows', () => {
    const says = (flood: Flood): string => unheardVerdict(exampleFarm, flood, 40).says;
    expect(says(PAUSING)).toBe('left to the board, which does not answer');
    expect(says(WET)).toBe('water came back, but nobody saw more than 2 of 20 min of it');
    expect(says(FLOOD)).toBe('the board went on with it, and nobody saw whether water came back');
  });

  it('is then confirmed if half of its water was seen, else unproven, and withheld if the pump rested', () => {
    const half: Flood = { ...WET, waterMinutes: 10, readMinutes: 14 };
    const kinds = [half, WET, FLOOD, DRAINING, PAUSING].map((flood) =>
      unheardVerdict(exampleFarm, flood, 40),
    );
    expect(kinds.map(({ kind }) => kind)).toEqual([
      'confirmed',
      'unproven',
      'unproven',
      'unproven',
      'withheld',
    ]);
  });
});
