import { describe, expect, it } from 'vitest';
import type { HostHealth } from '../../../src/ports/host-health.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';
import { minute } from '../../support/moments.ts';
import { at, linkIs, seen, toldFrom, type Told } from './noon.ts';

const WELL: HostHealth = { journal: { kind: 'well' }, channels: [], safeMode: null, restarts: 1 };
const DEAD: HostHealth = {
  ...WELL,
  channels: [{ name: 'text message', why: 'no network', since: minute(0) }],
};
const host = (health: HostHealth): { readonly kind: 'host'; readonly health: HostHealth } => ({
  kind: 'host',
  health,
});
const kinds = (told: Told): readonly string[] => told.state().alarms.map(({ card }) => card.kind);

describe('what the host tells of itself', () => {
  it('raises an alarm in the same step, calls for it, and returns it 5 min after it is well again', () => {
    const told = toldFrom(exampleFarm);
    const next = told.tell(1, host(DEAD));
    expect(next.calls.map(({ kind, alarm, rung }) => [kind, alarm, rung])).toEqual([
      ['raised', 'channel-dead', 0],
    ]);
    told.tell(2, host(WELL));
    const wake = told.tell(3, { kind: 'time' }).wake;
    expect(wake).toBeLessThanOrEqual(at(7).monotonic);
    expect(told.tell(6.9, { kind: 'time' }).state.alarms[0]?.state).toBe('active-unacknowledged');
    expect(told.tell(7, { kind: 'time' }).state.alarms[0]?.state).toBe('returned-unacknowledged');
  });

  it('is not taken for well before it has been told: an alarm from before a restart stays', () => {
    const told = toldFrom(exampleFarm);
    told.tell(1, host(DEAD));
    const kept = { ...told.state(), host: null };
    expect(kept.alarms).toHaveLength(1);
    const again = toldFrom(exampleFarm, 2, { kind: 'up' }, kept);
    again.lookOn(60, () => []);
    const [alarm] = again.state().alarms.filter(({ card }) => card.kind === 'channel-dead');
    expect(alarm?.state).toBe('active-unacknowledged');
  });
});

describe('putting an alarm off', () => {
  it('silences it, is written down with who and for how long, and ends in time', () => {
    const told = toldFrom(exampleFarm);
    told.tell(1, host(DEAD));
    const next = told.tell(2, { kind: 'shelve', alarm: 'channel-dead', minutes: 5, who: 'Ana' });
    expect(next.entries.filter(({ kind }) => kind === 'alarm-shelved')).toEqual([
      {
        kind: 'alarm-shelved',
        alarm: 'channel-dead',
        who: 'Ana',
        minutes: 5,
        at: at(2).monotonic,
        wall: at(2).wall,
      },
    ]);
    let wake = next.wake;
    while (wake < at(7).monotonic) ({ wake } = told.tell(wake / 60_000, { kind: 'time' }));
    expect(wake).toBe(at(7).monotonic);
    const end = told.tell(7, { kind: 'time' });
    expect(end.entries.flatMap((entry) => ('alarm' in entry ? [entry.kind] : []))).toEqual([
      'alarm-unshelved',
      'alarm-raised',
      'alarm-called',
    ]);
  });

  it('lasts no longer than half of the time left', () => {
    const told = toldFrom(exampleFarm);
    const next = told.tell(1, host(DEAD));
    const half = next.left().minutes / 2;
    expect(half).toBeLessThan(480);
    const shelved = told.tell(1, { kind: 'shelve', alarm: 'channel-dead', minutes: 480, who: 'Ana' });
    const [entry] = shelved.entries.filter(({ kind }) => kind === 'alarm-shelved');
    expect(entry?.kind === 'alarm-shelved' ? entry.minutes : null).toBeCloseTo(half, 5);
  });

  it('ends before its time when somebody says 0 min', () => {
    const told = toldFrom(exampleFarm);
    told.tell(1, host(DEAD));
    told.tell(2, { kind: 'shelve', alarm: 'channel-dead', minutes: 60, who: 'Ana' });
    told.tell(3, { kind: 'shelve', alarm: 'channel-dead', minutes: 0, who: 'Ana' });
    expect(told.tell(3.1, { kind: 'time' }).state.alarms[0]?.state).toBe('active-unacknowledged');
  });

  it('is refused for a silent board, with the reason, and the alarm speaks on', () => {
    const told = toldFrom(exampleFarm);
    told.tell(1, linkIs({ kind: 'down', why: 'unplugged' }));
    told.tell(2, { kind: 'time' });
    const next = told.tell(3, { kind: 'shelve', alarm: 'board-silent', minutes: 5, who: 'Ana' });
    expect(next.entries.flatMap((entry) => (entry.kind === 'shelve-refused' ? [entry.why] : []))).toEqual([
      'it is about water, and such an alarm cannot be put off',
    ]);
    expect(next.state.alarms[0]?.state).toBe('active-unacknowledged');
    expect(next.signals.buzzer).toBe('sounding');
  });
});

describe('an alarm whose sensor is out of hearing', () => {
  const farm = farmWith([['evidence'], { returnFlow: 'meter', leakSensor: true }]);

  it('does not clear: water on the floor stays told while the board is silent, and until the sensor has said dry for an hour', () => {
    const told = toldFrom(farm);
    told.lookOn(2, () => [{ channel: 'leak', wet: true }]);
    told.tell(3, linkIs({ kind: 'down', why: 'unplugged' }));
    for (let now = 4; now < 60; now += 1) told.tell(now, { kind: 'time' });
    expect(kinds(told)).toContain('water-on-floor');
    told.tell(60, linkIs({ kind: 'up' }));
    told.lookOn(119.75, () => [{ channel: 'leak', wet: false }]);
    const stateOf = (): string | undefined =>
      told.state().alarms.find(({ card }) => card.kind === 'water-on-floor')?.state;
    expect(stateOf()).toBe('active-unacknowledged');
    told.lookOn(121, () => [{ channel: 'leak', wet: false }]);
    expect(stateOf()).toBe('returned-unacknowledged');
  });

  it('does not clear after a restart either, while the leak sensor has said nothing yet', () => {
    const told = toldFrom(farm);
    told.lookOn(2, () => [{ channel: 'leak', wet: true }]);
    const kept = told.state().alarms;
    const again = toldFrom(farm, 3);
    const fresh = { ...again.state(), alarms: kept };
    const after = toldFrom(farm, 3, { kind: 'up' }, fresh);
    for (let now = 4; now < 60; now += 1) after.tell(now, seen(now));
    expect(kinds(after)).toContain('water-on-floor');
    expect(after.state().alarms.find(({ card }) => card.kind === 'water-on-floor')?.state).toBe(
      'active-unacknowledged',
    );
  });
});
