import { describe, expect, it } from 'vitest';
import { deadChannels } from '../../../src/delivery/channel-health.ts';
import { RINGS_IN_VAIN_MAX } from '../../../src/delivery/delivery-bounds.ts';
import { restarted } from '../../../src/delivery/delivery-restart.ts';
import type { Again } from '../../../src/delivery/message.ts';
import {
  ANA,
  BY_NIGHT,
  drive,
  GSM,
  MAIL,
  nowAt,
  RAISED,
  RUI,
  settingsWith,
  told,
  WELL,
  type Conduct,
  type Network,
} from './virtual-network.ts';

const refuses = (again: Again, why = 'refused'): Conduct => ({
  kind: 'answers',
  afterSeconds: 1,
  result: { kind: 'failed', why, again },
});
const dead = ({ state }: Network, atSeconds: number): readonly string[] =>
  deadChannels(state, nowAt(atSeconds).monotonic).map(({ name, why }) => `${name}: ${why}`);
const rings = ({ begun }: Network): readonly number[] =>
  begun.flatMap(({ message, atSeconds }) => (message.form === 'ring' ? [atSeconds] : []));
const looksOr = (conduct: Conduct) => (_: string, __: number, ___: number, asked: 'send' | 'look') =>
  asked === 'look' ? WELL : conduct;

describe('a channel that refuses everybody', () => {
  it.each([
    ['useless', 'no such mailbox'],
    ['later', 'relay access denied'],
  ] as const)('as %s is dead within 125 s, though its looks are answered, and stays so', (again, why) => {
    const run = drive(settingsWith([MAIL]), looksOr(refuses(again, why)), [told()], 7200);
    expect(dead(run, 135)).toEqual([`mail: ${why}`]);
    expect(dead(run, 7200)).toEqual([`mail: ${why}`]);
  });

  it('as relay access denied is tried on for both people, since it may be mended', () => {
    const run = drive(settingsWith([MAIL]), looksOr(refuses('later')), [told()], 3600);
    for (const { name } of [ANA, RUI])
      expect(run.begun.filter(({ message }) => message.to?.name === name).length).toBeGreaterThan(10);
  });

  it('is well again by the first mail that it takes, and not by an address that nobody has any more', () => {
    const mends = (_: string, atSeconds: number, __: number, asked: 'send' | 'look'): Conduct =>
      asked === 'look' || atSeconds >= 3600 ? WELL : refuses('useless');
    const again = told({ ...RAISED, kind: 'again' }, 3600);
    const run = drive(settingsWith([MAIL], [ANA]), mends, [told(), again], 3590);
    expect(dead(run, 3590)).toEqual(['mail: refused']);
    const after = drive(settingsWith([MAIL], [ANA]), mends, [told(), again], 3700);
    expect(dead(after, 3700)).toEqual([]);
  });

  it('is still dead after a restart', () => {
    const settings = settingsWith([MAIL]);
    const run = drive(settings, looksOr(refuses('useless')), [told()], 300);
    const left = { state: run.state, at: nowAt(300), awayMinutes: 1 / 6 };
    const state = restarted(left, settings, nowAt(310));
    const on = drive(settings, () => WELL, [], 900, undefined, state);
    expect(dead(on, 900)).toEqual(['mail: refused']);
  });
});

describe('one wrong address among two', () => {
  it('does not make a channel dead that takes what the other is sent', () => {
    const wrongAna = (channel: string, _: number, count: number): Conduct =>
      channel === 'mail' && count === 1 ? refuses('useless') : WELL;
    const run = drive(settingsWith([MAIL]), wrongAna, [told()], 600);
    expect(run.begun.map(({ message }) => message.to?.name)).toEqual(['Ana', 'Rui']);
    expect(dead(run, 600)).toEqual([]);
  });

  it('that the farm file has lost over a restart is not tried, and accuses no channel', () => {
    const settings = settingsWith([GSM, MAIL], [ANA]);
    const before = drive(settings, () => ({ kind: 'hangs' }), [told()], 12);
    const mailOnly = settingsWith([GSM, MAIL], [{ name: 'Ana', email: 'ana@example.org' }]);
    const state = restarted({ state: before.state, at: nowAt(12), awayMinutes: 1 / 60 }, mailOnly, nowAt(13));
    expect(state.jobs.flatMap(({ errands }) => errands.map(({ form }) => form))).toEqual(['mail']);
  });
});

describe('a phone that is off or busy all night', () => {
  const ringsInVain: Parameters<typeof drive>[1] = () => refuses('their-end', 'the phone is busy');

  it(`is rung ${RINGS_IN_VAIN_MAX} times for one call, within 2 min, and the modem is not dead`, () => {
    const run = drive(settingsWith([GSM], [ANA]), ringsInVain, [told()], 7200, BY_NIGHT);
    expect(rings(run)).toHaveLength(RINGS_IN_VAIN_MAX);
    expect(Math.max(...rings(run)) - 10).toBeLessThan(120);
    expect(dead(run, 7200)).toEqual([]);
  });

  it('is rung anew by the next call of the alarm', () => {
    const again = told({ ...RAISED, kind: 'again' }, 3600);
    const run = drive(settingsWith([GSM], [ANA]), ringsInVain, [told(), again], 7200, BY_NIGHT);
    expect(rings(run).filter((at) => at >= 3600)).toHaveLength(RINGS_IN_VAIN_MAX);
  });

  it('does not use up its rings while the modem itself fails', () => {
    const mends = (_: string, atSeconds: number, __: number, asked: 'send' | 'look'): Conduct =>
      atSeconds < 1800 ? refuses('later', 'no network') : asked === 'look' ? WELL : refuses('their-end');
    const run = drive(settingsWith([GSM], [ANA]), mends, [told()], 7200, BY_NIGHT);
    expect(rings(run).filter((at) => at >= 1800)).toHaveLength(RINGS_IN_VAIN_MAX);
  });
});
