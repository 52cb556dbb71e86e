import { describe, expect, it } from 'vitest';
import { statusOf } from '../../../firmware-host/status-view.ts';
import { alarmIn, cardOf } from '../alarm/made-alarms.ts';
import { minute } from '../../support/moments.ts';
import { restingHost } from '../../support/resting-host.ts';

describe('the status', () => {
  it('shows a sensor that has not spoken as absent, with the reason and no value', () => {
    const { readings } = statusOf(restingHost({}));
    expect(readings.find(({ name }) => name === 'air')).toEqual({
      name: 'air',
      quality: 'absent',
      value: null,
      ageSeconds: null,
      why: 'the air thermometer has not spoken',
    });
  });

  it('lists an alarm that is over and that nobody has acknowledged, beside one that stands', () => {
    const stands = alarmIn('active-unacknowledged', cardOf('missed-flood'), minute(480));
    const over = alarmIn('returned-unacknowledged', cardOf('board-silent'), minute(400));
    expect(statusOf(restingHost({ alarms: [stands, over] })).alarms).toMatchObject([
      { state: 'active-unacknowledged', priority: 'high' },
      { state: 'returned-unacknowledged', priority: 'high' },
    ]);
  });
});
