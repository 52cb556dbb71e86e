import { describe, expect, it } from 'vitest';
import type { Step } from '../../../src/controller.ts';
import { held, NO_ORDERS } from '../../../src/command/orders.ts';
import type { Now } from '../../../src/time/instant.ts';
import { statusOf, statusSentence } from '../../../firmware-host/status-view.ts';
import { alarmIn, cardOf } from '../alarm/made-alarms.ts';
import { minute } from '../../support/moments.ts';
import { NOON, RESTING, restingHost } from '../../support/resting-host.ts';

const UNDATED: Now = { ...NOON, wall: 'unknown' };
type State = Step['state'];

const CLUE: NonNullable<State['memory']['missed']> = {
  contact: 'seen',
  current: 'seen',
  mains: 'unknown',
  tankFell: 'unknown',
  trickleLitresPerMinute: null,
  stoppedAt: null,
  startedAt: minute(480),
  deadline: minute(495),
  retries: 2,
};
const WET = { theta: 0.9, thetaLow: 0.8 };
const belief = (
  ...benches: readonly { readonly theta: number; readonly thetaLow: number }[]
): State['belief'] => ({
  ...RESTING.state.belief,
  benches,
});

describe('the first sentence of the status', () => {
  it.each([
    ['wet', restingHost({ belief: belief(WET, WET) }), 'Wet. Last flood confirmed 11:50, next about 12:27.'],
    [
      'a bench at 49 %, below the stress floor of 50 %',
      restingHost({ belief: belief(WET, { theta: 0.49, thetaLow: 0.4 }) }),
      'Drying. Last flood confirmed 11:50, next about 12:27.',
    ],
    [
      'a bench whose dry edge is at 19 %, below the wilt floor of 20 %',
      restingHost({ belief: belief(WET, { theta: 0.6, thetaLow: 0.19 }) }),
      'Drying. Last flood confirmed 11:50, next about 12:27.',
    ],
    [
      'before the first flood',
      { ...restingHost({ belief: belief(WET) }), last: null },
      'Wet. First flood about 12:27.',
    ],
    [
      'with no flood planned',
      restingHost({ belief: belief(WET) }, { nextFloodAt: null }),
      'Wet. Last flood confirmed 11:50, no flood is planned now.',
    ],
    [
      'with the board gone for 3 min',
      restingHost({ link: { kind: 'down', why: 'unplugged' }, linkDownSince: minute(497) }),
      'NO BOARD for 3 min, about 83 min left.',
    ],
    [
      'with a bench that may be wilting',
      restingHost(
        { link: { kind: 'down', why: 'unplugged' }, linkDownSince: minute(380) },
        { left: () => ({ minutes: 0.4, bench: 'Bench 4' }) },
      ),
      'NO BOARD for 2 h, Bench 4 may be wilting already.',
    ],
    [
      'held',
      restingHost({ orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic) }),
      'Held by Ana until 12:30; the plants have about 83 min.',
    ],
    [
      'held, at night',
      restingHost(
        { orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic) },
        { left: () => ({ minutes: 2000, bench: null }) },
      ),
      'Held by Ana until 12:30; the plants have more than a day.',
    ],
    [
      'held too long',
      restingHost(
        { orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic) },
        { left: () => ({ minutes: 0.4, bench: 'Bench 4' }) },
      ),
      'Held by Ana until 12:30; Bench 4 may be wilting already.',
    ],
    [
      'held, with a clock that nobody believes',
      { ...restingHost({ orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic) }), now: UNDATED },
      'Held by Ana for another 30 min; the plants have about 83 min.',
    ],
    [
      'resting, with a clock that nobody believes',
      { ...restingHost({ belief: belief(WET) }), now: UNDATED },
      'Wet. Last flood confirmed 10 min ago, next in 27 min.',
    ],
    [
      'a flood missed, water last seen 22 min ago',
      restingHost({ memory: { ...RESTING.state.memory, missed: CLUE, lastWaterAt: minute(478) } }),
      'NO WATER for 22 min, about 83 min left.',
    ],
  ] as const)('%s', (_, given, sentence) => {
    expect(statusSentence(given)).toBe(sentence);
  });

  it('a silent board comes before a hold: nobody knows what the pump does', () => {
    const both = restingHost({
      linkDownSince: minute(497),
      orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic),
    });
    expect(statusSentence(both)).toMatch(/^NO BOARD/);
  });
});

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
