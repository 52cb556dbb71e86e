import { describe, expect, it } from 'vitest';
import type { Farm } from '../../../src/farm/farm.ts';
import type { Entry } from '../../../src/journal/entry.ts';
import { farmWith } from '../../support/farm.ts';
import { toldFrom, type Told } from './noon.ts';

const shedWith = (deadBoard: Farm['deadBoard']): Farm =>
  farmWith(
    [['deadBoard'], deadBoard],
    [['evidence'], { returnFlow: 'meter', pumpCurrent: true, relayReadBack: true }],
  );
const TIMER = shedWith('plain-timer');
const NO_TIMER = shedWith('pump-stops');

interface Shows {
  readonly drawing: boolean;
  readonly closed: boolean;
}
const QUIET: Shows = { drawing: false, closed: false };

/** A pump that is held for 4 h from the start, so off, and what is seen of it minute by minute. */
const heldWith = (farm: Farm, until: number, shows: (minutes: number) => Shows): Told => {
  const told = toldFrom(farm);
  told.tell(0, { kind: 'hold', minutes: 240, who: 'Ana' });
  told.lookOn(until, (minutes) => {
    const { drawing, closed } = shows(minutes);
    return [
      { channel: 'pump-current', drawing },
      { channel: 'relay-read-back', closed },
      { channel: 'return-flow', litresPerMinute: drawing ? 40 : 0 },
      { channel: 'air-temperature', celsius: 30 },
    ];
  });
  return told;
};
/** From 10 min on for so long. */
const during =
  (minutes: number, shows: Shows) =>
  (now: number): Shows =>
    now >= 10 && now < 10 + minutes ? shows : QUIET;
const CURRENT: Shows = { drawing: true, closed: false };
const CONTACT: Shows = { drawing: true, closed: true };

describe('a pump that runs unasked beside a plain timer', () => {
  it('is the timer’s for its longest-on of 45 min, and an alarm then', () => {
    expect(heldWith(TIMER, 54.75, during(200, CURRENT)).raised('pump-runs-on')).toEqual([]);
    expect(heldWith(TIMER, 60, during(200, CURRENT)).raised('pump-runs-on')).toEqual([55]);
  });

  it('for 40 min, a pause and 40 min more is the timer’s as well', () => {
    const twice = (now: number): Shows =>
      during(40, CURRENT)(now).drawing || during(40, CURRENT)(now - 60).drawing ? CURRENT : QUIET;
    expect(heldWith(TIMER, 120, twice).raised('pump-runs-on')).toEqual([]);
  });

  it('with the contact of its own relay closed is an alarm after 30 s, timer or not', () => {
    for (const farm of [TIMER, NO_TIMER]) {
      const told = heldWith(farm, 12, during(200, CONTACT));
      expect(told.raised('pump-runs-on')).toEqual([10.5]);
    }
  });
});

describe('a pump that runs unasked where no timer is', () => {
  const alarmsOf = (told: Told): readonly Extract<Entry, { kind: 'alarm-raised' }>[] =>
    told
      .entries()
      .flatMap((entry) => (entry.kind === 'alarm-raised' && entry.alarm === 'pump-runs-on' ? [entry] : []));

  it('by its own relay is an alarm after 30 s, high, and says to pull the plug and look at the relay', () => {
    const told = heldWith(NO_TIMER, 60, during(200, CONTACT));
    expect(told.raised('pump-runs-on')).toEqual([10.5]);
    expect(alarmsOf(told)[0]).toMatchObject({
      priority: 'high',
      text: expect.stringMatching(/it has drawn current since 12:10\..*Pull the plug.*the relay/) as unknown,
    });
  });

  it('past its open relay is told after 30 s as a switch left by hand, and called out at 15 min, a third of longest-on', () => {
    const told = heldWith(NO_TIMER, 60, during(200, CURRENT));
    expect(told.raised('pump-runs-on')).toEqual([10.5, 25]);
    expect(alarmsOf(told).map(({ priority }) => priority)).toEqual(['medium', 'high']);
    for (const { text } of alarmsOf(told)) {
      expect(text).toMatch(/drawn current past its open relay since 12:10\..*Is its switch left by hand\?/);
      expect(text).not.toMatch(/look at the relay/);
    }
  });

  it('is none by one word of 15 s', () => {
    expect(heldWith(NO_TIMER, 20, during(0.25, CURRENT)).raised('pump-runs-on')).toEqual([]);
  });

  it('is none by one word of a meter just before a flood, nor in that flood or after it', () => {
    const told = toldFrom(farmWith([['deadBoard'], 'pump-stops'], [['evidence'], { returnFlow: 'meter' }]));
    told.tell(0, { kind: 'hold', minutes: 30, who: 'Ana' });
    told.lookOn(60, (minutes) => {
      const flows = minutes === 29.75 || (minutes > 32 && minutes < 55);
      return [
        { channel: 'return-flow', litresPerMinute: flows ? 40 : 0 },
        { channel: 'air-temperature', celsius: 30 },
      ];
    });
    expect(told.entries().filter(({ kind }) => kind === 'flood-started')).not.toEqual([]);
    expect(told.raised('pump-runs-on')).toEqual([]);
  });

  it('stands until it is seen to be over for 30 s, and returns then', () => {
    const told = heldWith(NO_TIMER, 20, during(5, CURRENT));
    const returned = told.entries().flatMap((entry) => (entry.kind === 'alarm-returned' ? [entry] : []));
    expect(returned.map(({ alarm, at }) => [alarm, at / 60_000])).toEqual([['pump-runs-on', 15.5]]);
  });

  it('is looked for from a minute after the word off on: contact and current need a moment', () => {
    // Off from the start; the first look after the minute is at 1.25, and 30 s later it is an alarm.
    expect(heldWith(NO_TIMER, 5, () => CONTACT).raised('pump-runs-on')).toEqual([1.75]);
  });
});

describe('a pump that runs unasked while the tank float reads low', () => {
  const FLOAT = farmWith(
    [['deadBoard'], 'pump-stops'],
    [['evidence'], { returnFlow: 'meter', pumpCurrent: true, relayReadBack: true, tankFloat: true }],
  );
  /** Until 40 min past noon, with the float low from 5 min on. */
  const low = (
    shows: (minutes: number, asked: boolean) => { closed: boolean; litresPerMinute: number },
  ): Told => {
    const told = toldFrom(FLOAT);
    told.lookOn(40, (minutes) => {
      const { closed, litresPerMinute } = shows(minutes, told.state().guard.asked.kind === 'on');
      return [
        { channel: 'pump-current', drawing: closed },
        { channel: 'relay-read-back', closed },
        { channel: 'return-flow', litresPerMinute },
        { channel: 'air-temperature', celsius: 30 },
        { channel: 'tank-float', low: minutes >= 5 },
      ];
    });
    return told;
  };
  const sips = (told: Told): number => told.entries().filter(({ kind }) => kind === 'sip').length;

  it('does not clear the float by the water that goes round: it may be the last of the tank', () => {
    const told = low(() => ({ closed: true, litresPerMinute: 40 }));
    expect(sips(told)).toBeGreaterThan(0);
    expect(told.raised('tank-low')).toHaveLength(1);
    expect(told.returned('tank-low')).toEqual([]);
    expect(told.raised('float-suspect')).toEqual([]);
  });

  it('is another than one that a sip has started: its water clears the float', () => {
    let sipped = false;
    const told = low((minutes, asked) => {
      sipped ||= asked && minutes > 10;
      return { closed: asked, litresPerMinute: asked ? 40 : 0 };
    });
    expect(sipped).toBe(true);
    expect(told.raised('float-suspect')).toHaveLength(1);
  });
});
