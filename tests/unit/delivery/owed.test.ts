import { describe, expect, it } from 'vitest';
import type { Call } from '../../../src/delivery/call.ts';
import { deadChannels } from '../../../src/delivery/channel-health.ts';
import { restarted } from '../../../src/delivery/delivery-restart.ts';
import { step } from '../../../src/delivery/delivery.ts';
import {
  ANA,
  BROKER,
  BY_DAY,
  drive,
  FAILS,
  GSM,
  HOOK,
  MAIL,
  nowAt,
  RAISED,
  settingsWith,
  told,
  WELL,
  type Network,
} from './virtual-network.ts';

const HOUR = 3600;
const ALL_WELL: Call = { ...RAISED, kind: 'all-well', alarm: null, priority: 'low' };
const deadIn = (run: Network, atSeconds: number): readonly string[] =>
  deadChannels(run.state, nowAt(atSeconds).monotonic).map(({ name }) => name);
const deliveredAt = ({ heard }: Network): readonly number[] =>
  heard.filter(({ kind }) => kind === 'delivered').map(({ atSeconds }) => atSeconds);

describe('a channel that answers every look and takes no message, as a modem without credit', () => {
  const withoutCredit =
    (until: number) =>
    (_: string, at: number, __: number, asked: 'send' | 'look'): typeof WELL =>
      asked === 'look' || at >= until ? WELL : FAILS;
  const only = settingsWith([GSM], [ANA]);

  it.each([
    ['an alarm', RAISED, [70, 600, 3500]],
    // Which waits for a quarter of an hour.
    ['the daily word', ALL_WELL, [70, 600, 900]],
  ] as const)('is dead within a minute of %s, and its looks do not bring it back', (_, call, moments) => {
    for (const seconds of moments) {
      expect(deadIn(drive(only, withoutCredit(Infinity), [told(call)], seconds), seconds)).toEqual(['modem']);
    }
  });

  it('owes the alarm until it takes it, tries six times an hour at most after the first, and is then well', () => {
    const run = drive(only, withoutCredit(30 * HOUR), [told()], 31 * HOUR);
    expect(run.begun.length).toBeLessThan(16 + 6 * 31);
    expect(deadIn(run, 31 * HOUR)).toEqual([]);
    expect(deliveredAt(run)[0]).toBeGreaterThan(30 * HOUR);
    expect(deliveredAt(run)[0]).toBeLessThan(30.6 * HOUR);
    expect(run.state.jobs).toEqual([]);
  });

  it('gives up a daily word after a quarter of an hour: by then it may be a lie', () => {
    const run = drive(only, withoutCredit(2 * HOUR), [told(ALL_WELL)], 3 * HOUR);
    expect(run.heard.at(-1)).toMatchObject({ why: 'its time is over' });
    expect(deliveredAt(run)).toEqual([]);
    // A look is all that is left to tell by.
    expect(deadIn(run, 3 * HOUR)).toEqual([]);
  });
});

describe('an alarm that is told once', () => {
  const online = settingsWith([MAIL, HOOK, BROKER]);
  const away =
    (until: number) =>
    (_: string, at: number): typeof WELL =>
      at < until ? FAILS : WELL;

  it.each(['medium', 'low'] as const)('of %s priority outlives 3 h without the internet', (priority) => {
    const run = drive(online, away(3 * HOUR), [told({ ...RAISED, priority })], 4 * HOUR);
    const mails = run.heard.filter((heard) => heard.kind === 'delivered' && heard.form === 'mail');
    expect(mails.map((heard) => 'person' in heard && heard.person)).toContain('Ana');
    expect(deliveredAt(run).at(-1)).toBeLessThan(3.6 * HOUR);
    expect(run.state.jobs).toEqual([]);
  });

  it('gives way to the word that it is over', () => {
    const over: Call = { ...RAISED, kind: 'returned', priority: 'medium', text: 'Over.' };
    const script = [told({ ...RAISED, priority: 'medium' }), told(over, 2 * HOUR)];
    const run = drive(online, away(2.5 * HOUR), script, 4 * HOUR);
    const texts = run.heard.flatMap((heard) => (heard.kind === 'delivered' ? [heard.call!.text] : []));
    expect(new Set(texts)).toEqual(new Set(['Over.']));
  });

  it('outlives a host that is dark for two hours where nobody has got it; one of high priority is told anew instead', () => {
    const script = (['high', 'medium', 'low'] as const).map((priority, place) =>
      told({ ...RAISED, alarm: `alarm-${place}`, priority } as unknown as Call),
    );
    const dark = drive(online, away(Infinity), script, 60);
    const later = restarted({ state: dark.state, at: nowAt(60), awayMinutes: 119 }, online, nowAt(2 * HOUR));
    expect(later.jobs.map(({ call }) => call?.priority)).toEqual(['medium', 'low']);
    const run = drive(online, () => WELL, [], 3 * HOUR, BY_DAY, later);
    const mailed = run.heard.flatMap((heard) =>
      heard.kind === 'delivered' && heard.form === 'mail' ? [heard.call!.priority] : [],
    );
    expect(new Set(mailed)).toEqual(new Set(['medium', 'low']));
    const got = drive(online, away(0), script, 60);
    expect(
      restarted({ state: got.state, at: nowAt(60), awayMinutes: 119 }, online, nowAt(2 * HOUR)).jobs,
    ).toEqual([]);
  });
});

describe('a webhook that was dead, at which nobody can look', () => {
  const settings = settingsWith([MAIL, HOOK], [ANA]);
  const hookBackAt =
    (seconds: number) =>
    (channel: string, at: number): typeof WELL =>
      channel === 'mail' || at >= seconds ? WELL : FAILS;

  it('is owed its last posting until it takes it, and is then well', () => {
    const run = drive(settings, hookBackAt(50 * HOUR), [told()], 51 * HOUR);
    expect(deliveredAt(run).at(-1)).toBeGreaterThan(50 * HOUR);
    expect(deadIn(run, 51 * HOUR)).toEqual([]);
    expect(deadIn(drive(settings, hookBackAt(Infinity), [told()], 51 * HOUR), 51 * HOUR)).toEqual([
      'webhook shop',
    ]);
  });

  it('is not said to be dead for ever where nothing is owed to it any more', () => {
    const run = drive(settings, hookBackAt(Infinity), [told(ALL_WELL)], 2 * HOUR);
    expect(deadIn(run, 2 * HOUR)).toEqual([]);
  });
});

it('what is owed is the same list while nothing changes, so that nothing is written down anew', () => {
  const settings = settingsWith([GSM], [ANA]);
  const { state } = drive(settings, () => FAILS, [told()], 12);
  const event = { kind: 'says', sentence: 'Wet.' } as const;
  expect(state.jobs).toHaveLength(1);
  expect(step(state, settings, event, nowAt(13)).state.jobs).toBe(state.jobs);
});
