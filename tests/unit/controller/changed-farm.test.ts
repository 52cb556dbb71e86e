import { describe, expect, it } from 'vitest';
import { isActive } from '../../../src/alarm/alarm.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { exampleFile, farmWith } from '../farm/example.ts';
import { cut } from './cut.ts';
import { at, toldFrom, type Said, type Told } from './noon.ts';

const air = (minute: number): Said => ({ channel: 'air-temperature', celsius: 30 + (minute % 2) * 0.1 });
const pumpIsOn = (told: Told): boolean => told.state().guard.asked.kind === 'on';
/** The host is started anew under another farm file, five minutes later. */
const under = (farm: Farm, before: Told, minute: number): Told => {
  const kept = cut({ farm, state: before.state(), at: at(minute), now: at(minute + 5), away: 5 });
  return toldFrom(farm, minute + 5, { kind: 'up' }, kept);
};
const standing = (told: Told): readonly string[] =>
  told
    .state()
    .alarms.filter(isActive)
    .map(({ card }) => card.kind);

describe('a broken sensor that is taken out of the farm file', () => {
  it('takes its alarm with it: a read-back that was shorted says no more that the pump runs on', () => {
    const before = toldFrom(farmWith([['evidence'], { returnFlow: 'none', relayReadBack: true }]));
    before.lookOn(40, () => [air(0), { channel: 'relay-read-back', closed: true }]);
    expect(standing(before)).toContain('pump-runs-on');
    const after = under(farmWith([['evidence'], { returnFlow: 'none' }]), before, 40);
    after.lookOn(120, (minute) => [air(minute)]);
    expect(after.returned('pump-runs-on')).toHaveLength(1);
    expect(standing(after)).not.toContain('pump-runs-on');
  });

  it('leaves what another sensor says: the current past an open relay', () => {
    const drawing: Said = { channel: 'pump-current', drawing: true };
    const fitted = { returnFlow: 'none', relayReadBack: true, pumpCurrent: true };
    const stops = [['deadBoard'], 'pump-stops'] as const;
    const before = toldFrom(farmWith([['evidence'], fitted], stops));
    before.lookOn(40, () => [air(0), drawing, { channel: 'relay-read-back', closed: false }]);
    expect(standing(before)).toContain('pump-runs-on');
    const after = under(farmWith([['evidence'], { ...fitted, relayReadBack: false }], stops), before, 40);
    after.lookOn(60, (minute) => [air(minute), drawing]);
    expect(standing(after)).toContain('pump-runs-on');
  });

  it('leaves no flood weak for ever: a meter that died', () => {
    const float: Said = { channel: 'tank-float', low: false };
    const before = toldFrom(farmWith([['evidence'], { returnFlow: 'meter', tankFloat: true }]));
    before.lookOn(100, () => [
      air(0),
      float,
      { channel: 'return-flow', litresPerMinute: pumpIsOn(before) ? 20 : 0 },
    ]);
    expect(standing(before)).toContain('weak-flow');
    const after = under(farmWith([['evidence'], { returnFlow: 'none', tankFloat: true }]), before, 100);
    after.lookOn(120, (minute) => [air(minute), float]);
    expect(standing(after)).not.toContain('weak-flow');
  });
});

describe('what floods have taught', () => {
  const { benches } = exampleFile() as { benches: readonly object[] };
  const ofBenches = (count: number): Farm => farmWith([['benches'], benches.slice(0, count)]);
  const floods = (told: Told, until: number, litresPerMinute: number): readonly string[] => {
    const begun = told.entries().length;
    told.lookOn(until, (minute) =>
      minute % 0.5 === 0
        ? [
            air(minute),
            { channel: 'tank-float', low: false },
            { channel: 'return-flow', litresPerMinute: pumpIsOn(told) ? litresPerMinute : 0 },
          ]
        : [],
    );
    return told
      .entries()
      .slice(begun)
      .flatMap((entry) => (entry.kind === 'verdict' ? [entry.verdict.kind] : []));
  };

  it.each([1, 2, 3])('of four benches is not held against a farm file of %d', (count) => {
    const before = toldFrom(ofBenches(4));
    floods(before, 600, 40);
    expect(before.state().learned.bestLitresPerMinute).toBeCloseTo(40);
    const after = under(ofBenches(count), before, 600);
    expect(new Set(floods(after, 900, 9.7 * count))).toEqual(new Set(['confirmed']));
    expect(standing(after)).toEqual([]);
  });

  it('of one bench does not hide that of four only three tenths of the water come back', () => {
    const before = toldFrom(ofBenches(1));
    floods(before, 600, 10);
    const after = under(ofBenches(4), before, 600);
    expect(new Set(floods(after, 900, 12))).toEqual(new Set(['degraded']));
  });

  it('outlives a restart under the same farm file', () => {
    const before = toldFrom(ofBenches(4));
    floods(before, 600, 33);
    expect(under(ofBenches(4), before, 600).state().learned).toEqual(before.state().learned);
  });
});
