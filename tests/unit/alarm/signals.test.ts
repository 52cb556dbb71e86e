import { describe, expect, it } from 'vitest';
import type { Alarm, AlarmState } from '../../../src/alarm/alarm.ts';
import { beginning } from '../../../src/alarm/deadband.ts';
import type { Priority } from '../../../src/alarm/card.ts';
import { signals } from '../../../src/alarm/signals.ts';
import { second } from '../../support/moments.ts';

const alarm = (state: AlarmState, priority: Priority): Alarm => ({
  state,
  raisedAt: second(0),
  card: { kind: 'missed-flood', priority, cause: '', consequence: null, firstAction: '' },
  course: beginning(second(0)),
  shelf: state === 'shelved' ? { until: second(9000), who: 'Ana' } : null,
});

/** Buzzer and lamp at 1000 s, with a hold that ends at `holdEnds` s. */
const shown = (alarms: readonly Alarm[], holdEnds?: number): readonly [string, string] => {
  const { buzzer, lamp } = signals(alarms, holdEnds === undefined ? null : second(holdEnds), second(1000));
  return [buzzer, lamp];
};

describe('buzzer and lamp', () => {
  it('are silent and dark while nothing is wrong', () => {
    expect(shown([])).toEqual(['silent', 'dark']);
  });

  it.each<readonly [AlarmState, Priority, string, string]>([
    ['active-unacknowledged', 'high', 'sounding', 'lit'],
    ['active-unacknowledged', 'medium', 'silent', 'lit'],
    ['active-unacknowledged', 'low', 'silent', 'lit'],
    ['active-acknowledged', 'high', 'silent', 'lit'],
    ['active-acknowledged', 'low', 'silent', 'lit'],
    ['returned-unacknowledged', 'high', 'silent', 'dark'],
    ['shelved', 'medium', 'silent', 'lit'],
  ])('one alarm, %s and %s: buzzer %s, lamp %s', (state, priority, buzzer, lamp) => {
    expect(shown([alarm(state, priority)])).toEqual([buzzer, lamp]);
  });

  it('one urgent alarm among others is enough, and an acknowledged one quiets no other', () => {
    const seen = alarm('active-acknowledged', 'high');
    const over = alarm('returned-unacknowledged', 'high');
    expect(shown([seen, over])).toEqual(['silent', 'lit']);
    expect(shown([seen, over, alarm('active-unacknowledged', 'high')])).toEqual(['sounding', 'lit']);
  });
});

describe('the end of a hold', () => {
  it('is sounded 10 s before, not 11 s, and the lamp stays dark', () => {
    expect(shown([], 1011)).toEqual(['silent', 'dark']);
    expect(shown([], 1010)).toEqual(['sounding', 'dark']);
    expect(shown([], 1000)).toEqual(['sounding', 'dark']);
  });

  it('is sounded also when the alarm of the long hold has been acknowledged', () => {
    expect(shown([alarm('active-acknowledged', 'high')], 1005)).toEqual(['sounding', 'lit']);
  });
});
