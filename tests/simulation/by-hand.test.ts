import { describe, expect, it } from 'vitest';
import type { Farm } from '../../src/farm/farm.ts';
import { handSwitched, type HandSwitch } from './hand-switch.ts';
import { lowestTheta, runShed, told, type ShedRun } from './shed-run.ts';
import { broken, clock, shedWith } from './sheds.ts';

const MINUTE = 60_000;
const NO_TIMER = shedWith([['deadBoard'], 'pump-stops']);
const TIMER = shedWith([['deadBoard'], 'plain-timer']);
const NO_CURRENT = shedWith(
  [['deadBoard'], 'pump-stops'],
  [['evidence'], { returnFlow: 'meter', relayReadBack: true, tankFloat: true }],
);
/** In a rest of the hot day. */
const FROM = 13;
const UNTIL = 14.5;

const leftBy = (left: HandSwitch['left'], farm: Farm): ShedRun =>
  runShed({
    farm,
    fromMillis: clock(7),
    untilMillis: clock(16.5),
    ...handSwitched({ left, fromMillis: clock(FROM), untilMillis: clock(UNTIL) }),
  });

/** What is told, by whole minutes since the switch was turned. */
const heardOf = (run: ShedRun): readonly string[] =>
  run.alarms.map(
    ({ entry }) =>
      `${entry.alarm} ${entry.priority} after ${Math.round((entry.at - clock(FROM)) / MINUTE)} min`,
  );
const overAfter = (run: ShedRun): readonly number[] =>
  told(run, 'alarm-returned').map(({ at }) => (at - clock(UNTIL)) / MINUTE);

describe('a switch left on by hand from 13:00 of a hot day, past the relay', () => {
  it('is told within 6 min, called out at a third of longest-on, never as a relay or a stuck sensor, and over 2 min after it', () => {
    const run = leftBy('on', NO_TIMER);
    expect(heardOf(run)).toEqual(['pump-runs-on medium after 5 min', 'pump-runs-on high after 20 min']);
    for (const { entry } of run.alarms) {
      expect(entry.text).toMatch(/past its open relay since 13:04\..*Is its switch left by hand\?/);
      expect(entry.text).not.toMatch(/look at the relay/);
    }
    expect(overAfter(run).length).toBe(1);
    expect(overAfter(run)[0]).toBeLessThanOrEqual(2);
    expect(lowestTheta(run)).toBeGreaterThan(NO_TIMER.floors.stress);
  });

  it('looks like a plain timer where one is, until it has run for longest-on: high then', () => {
    const run = leftBy('on', TIMER);
    const [first, ...more] = run.alarms;
    expect(more).toEqual([]);
    expect(first!.entry).toMatchObject({ alarm: 'pump-runs-on', priority: 'high' });
    expect((first!.entry.at - clock(FROM)) / MINUTE).toBeLessThanOrEqual(TIMER.pump.longestOnMinutes + 6);
  });

  it('is asked about within 15 min where no current is read: whether water really runs though the pump rests', () => {
    const run = leftBy('on', NO_CURRENT);
    expect(heardOf(run)).toEqual(['flow-sensor-stuck medium after 14 min']);
    expect(run.alarms[0]!.entry.text).toMatch(/whether water really runs/);
  });
});

describe('a relay that closes by itself, from 13:00 of a hot day', () => {
  it('is told high at once as the relay: pull the plug', () => {
    const run = runShed({
      farm: NO_TIMER,
      fromMillis: clock(7),
      untilMillis: clock(16.5),
      faults: broken('relay-welded', FROM, UNTIL),
    });
    const [first] = run.alarms;
    expect(first!.entry).toMatchObject({ alarm: 'pump-runs-on', priority: 'high' });
    expect((first!.entry.at - clock(FROM)) / MINUTE).toBeLessThanOrEqual(6);
    expect(first!.entry.text).toMatch(/Pull the plug of the pump, then look at the relay/);
    expect(run.alarms.length).toBe(1);
  });
});

describe('a switch left off by hand from 13:00 of a hot day', () => {
  it('is one missed-flood alarm, high, that asks for plug and switch, and is over with the next confirmed flood', () => {
    const run = leftBy('off', NO_TIMER);
    expect(run.alarms.map(({ entry }) => [entry.alarm, entry.priority])).toEqual([['missed-flood', 'high']]);
    expect(run.alarms[0]!.entry.text).toMatch(/drew no current.*Is its switch off\?/);
    const missed = told(run, 'verdict').find(({ verdict }) => verdict.kind === 'missed')!;
    const deadline = missed.verdict.kind === 'missed' ? missed.verdict.clue.deadline : NaN;
    expect(run.alarms[0]!.entry.at - deadline).toBeLessThanOrEqual(MINUTE);
    const confirmed = told(run, 'verdict').find(
      ({ at, verdict }) => at > clock(UNTIL) && verdict.kind === 'confirmed',
    )!;
    expect(told(run, 'alarm-returned').map(({ at }) => at)).toEqual([confirmed.at]);
  });
});
