import { describe, expect, it } from 'vitest';
import { exampleFarm } from '../../support/farm.ts';
import { minute } from '../../support/moments.ts';
import { keptRun } from '../verify/kept.ts';
import { AWAY, begun, NOTHING, up, verdicts, wet } from './noon-kept.ts';
import { seen, toldFrom, type Told } from './noon.ts';

describe('while a board that keeps the plants is not heard', () => {
  it('no flood falls due, and none is withheld: in 3 h not one verdict but that of the flood before', () => {
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(25, wet(told));
    told.tell(25.25, AWAY);
    told.lookOn(205, NOTHING);
    expect(verdicts(told)).toEqual(['1 confirmed at 20.5']);
    expect(told.commands()).toEqual(['pump-on at 0.5', 'pump-off at 20.5']);
  });

  it('raises the alarm after 30 s, and does not say that no flood can be given', () => {
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(25, wet(told));
    told.tell(25.25, AWAY);
    told.lookOn(30, NOTHING);
    expect(told.raised('board-silent')).toEqual([25.75]);
    expect(told.entries().find(({ kind }) => kind === 'alarm-raised')).toMatchObject({
      text: expect.stringMatching(
        /its own table should flood, unseen\. If not: .*may begin to wilt/,
      ) as unknown,
    });
  });

  it('believes in no water that nobody saw, and takes it in once it is told: two floods of 75 min', () => {
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(25, wet(told));
    const before = told.state().belief.benches[0]!.thetaLow;
    told.tell(25.25, AWAY);
    told.lookOn(99.75, NOTHING);
    const dry = told.state().belief.benches[0]!.thetaLow;
    expect(dry).toBeLessThan(before);
    told.tell(100, up({ runs: [keptRun(45), keptRun(78)] }));
    expect(told.state().belief.benches[0]!.thetaLow).toBeGreaterThan(dry + 0.1);
  });

  it('believes in no water of the flood that was left to it either: the roots dry from the loss on', () => {
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(5, wet(told));
    told.tell(5.25, AWAY);
    const held = (): number => told.state().belief.benches[0]!.theta;
    const before = held();
    told.lookOn(20, NOTHING);
    expect(held()).toBeLessThan(before);
  });

  it('takes no alarm away by a flood that nobody saw: missed within 20 min, and not returned by 13:40', () => {
    const dry = (): ReturnType<ReturnType<typeof wet>> => [
      { channel: 'air-temperature', celsius: 30 },
      { channel: 'return-flow', litresPerMinute: 0 },
    ];
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(30, dry);
    const [raisedAt] = told.raised('missed-flood');
    expect(raisedAt).toBeLessThan(20);
    const last = (): string | undefined =>
      told.commands().findLast((command) => command.startsWith('pump-on'));
    const before = last();
    for (let now = 31; last() === before && now < 60; now += 1) told.lookOn(now, dry);
    const lostAt = Number(last()?.split(' at ')[1]) + 1;
    told.tell(Math.max(lostAt, 31.25), AWAY);
    told.lookOn(100, NOTHING);
    expect(verdicts(told).at(-1)).toMatch(/^2 unproven/);
    expect(told.entries().filter(({ kind }) => kind === 'alarm-returned')).toEqual([]);
  });

  it('counts no flood that the board missed as water', () => {
    const heard = (verdict: 'missed' | 'confirmed'): number => {
      const told = begun();
      told.tell(0, seen(0));
      told.lookOn(25, wet(told));
      told.tell(25.25, AWAY);
      told.tell(70, up({ runs: [keptRun(45, { verdict })] }));
      return told.state().belief.benches[0]!.thetaLow;
    };
    expect(heard('missed')).toBeLessThan(heard('confirmed') - 0.05);
  });
});

describe('a hold at a board that holds by itself', () => {
  it('goes to the board before the pump is asked off, with its length, and a release too', () => {
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(5, wet(told));
    const held = told.tell(5.25, { kind: 'hold', minutes: 30, who: 'Ana' });
    expect(held.commands).toEqual([{ kind: 'hold', longest: 1800 }, { kind: 'pump-off' }]);
    expect(told.tell(10, { kind: 'release', who: 'Ana' }).commands).toEqual([{ kind: 'release' }]);
  });

  it('does not go to a stock board', () => {
    const told = toldFrom(exampleFarm);
    told.tell(0, seen(0));
    expect(told.tell(0.25, { kind: 'hold', minutes: 30, who: 'Ana' }).commands).toEqual([]);
  });

  it('of which the longer one counts: 40 min there against 30 here, and 20 against 30', () => {
    const back = (theirs: number): Told => {
      const told = begun();
      told.tell(0, { kind: 'hold', minutes: 30, who: 'Ana' });
      told.tell(1, AWAY);
      told.tell(5, up({ holdUntil: minute(theirs) }));
      return told;
    };
    expect(back(40).state().orders.hold).toMatchObject({ until: minute(40), who: 'the board' });
    expect(back(20).state().orders.hold).toMatchObject({ until: minute(30), who: 'Ana' });
    expect(back(40).commands()).toEqual(['hold at 0']);
    expect(back(20).commands()).toEqual(['hold at 0', 'hold at 5']);
  });
});
