import { describe, expect, it } from 'vitest';
import { exampleFarm } from '../../support/farm.ts';
import { seen, toldFrom, type Told } from './noon.ts';

const FARM = { ...exampleFarm, evidence: { ...exampleFarm.evidence, relayReadBack: true } };

/** Looks every 5 s at a read-back that changes every `seconds` from one minute to another, and else follows the pump. */
const relayThat = (seconds: number, from: number, to: number, until: number): Told => {
  const told = toldFrom(FARM);
  for (let now = 0; now <= until; now += 1 / 12) {
    const on = told.state().guard.asked.kind === 'on';
    const turns = now >= from && now < to && Math.floor(((now - from) * 60) / seconds) % 2 === 0;
    told.tell(
      now,
      seen(
        now,
        { channel: 'air-temperature', celsius: 30 },
        { channel: 'return-flow', litresPerMinute: on ? 40 : 0 },
        { channel: 'relay-read-back', closed: turns ? !on : on },
      ),
    );
  }
  return told;
};

const turned = (told: Told, kind: 'alarm-raised' | 'alarm-returned'): readonly number[] =>
  told
    .entries()
    .flatMap((entry) =>
      entry.kind === kind && entry.alarm === 'relay-chatters' ? [Math.round(entry.at / 6000) / 10] : [],
    );

describe('a relay whose read-back changes every 5 s for 12 min', () => {
  const told = relayThat(5, 40, 52, 75);

  it('is one medium alarm within the first minute, and stays one', () => {
    expect(turned(told, 'alarm-raised')).toHaveLength(1);
    const [raised] = turned(told, 'alarm-raised');
    expect(raised).toBeGreaterThan(40);
    expect(raised).toBeLessThanOrEqual(41);
    const entry = told.entries().find((one) => one.kind === 'alarm-raised' && one.alarm === 'relay-chatters');
    expect(entry).toMatchObject({ priority: 'medium' });
  });

  it('returns 10 min after its last change, as it is believed after 5 and the alarm waits another 5', () => {
    const [returned] = turned(told, 'alarm-returned');
    expect(returned).toBeGreaterThanOrEqual(61.8);
    expect(returned).toBeLessThanOrEqual(62.3);
  });
});

describe('a relay that is well', () => {
  it('changes with every flood and raises nothing in 90 min', () => {
    const told = relayThat(5, 90, 90, 90);
    expect(told.commands().length).toBeGreaterThan(4);
    expect(turned(told, 'alarm-raised')).toEqual([]);
  });

  it('raises nothing by a read-back that changes every 20 s: that is no chatter, and a pump may', () => {
    expect(turned(relayThat(20, 40, 52, 60), 'alarm-raised')).toEqual([]);
  });
});
