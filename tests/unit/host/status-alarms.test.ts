import { describe, expect, it } from 'vitest';
import type { Alarm, AlarmState } from '../../../src/alarm/alarm.ts';
import type { AlarmKind } from '../../../src/alarm/card.ts';
import { stateSentence } from '../../../firmware-host/state-sentence.ts';
import { held, NO_ORDERS } from '../../../src/command/orders.ts';
import { alarmIn, cardOf } from '../alarm/made-alarms.ts';
import { minute } from '../../support/moments.ts';
import { NOON, RESTING, restingHost } from '../../support/resting-host.ts';

const BELIEF = { ...RESTING.state.belief, benches: [{ theta: 0.9, thetaLow: 0.8 }] };

/** What a text with "?" is answered, and what the broker keeps. */
const saidWith = (alarms: readonly Alarm[]): string =>
  stateSentence(restingHost({ belief: BELIEF, alarms }), 'en');
const alarm = (kind: AlarmKind, state: AlarmState = 'active-unacknowledged'): Alarm =>
  alarmIn(state, cardOf(kind), minute(490));
const WELL = 'Wet. Last flood confirmed 11:50, next about 12:27.';

describe('the sentence of a host with an alarm of high priority', () => {
  it.each([
    ['pump-runs-on', 'pump runs on'],
    ['mains-lost', 'mains lost'],
    ['water-on-floor', 'water on the floor'],
    ['drying-out', 'benches drying'],
  ] as const)('begins with it: %s', (kind, name) => {
    expect(saidWith([alarm(kind)])).toBe(`ALARM: ${name}. ${WELL}`);
    expect(saidWith([alarm(kind, 'active-acknowledged')])).toBe(`ALARM: ${name}. ${WELL}`);
  });

  it('names three, and counts the rest', () => {
    const kinds = ['mains-lost', 'tank-low', 'drying-out', 'water-on-floor', 'pump-runs-on'] as const;
    expect(saidWith(kinds.map((kind) => alarm(kind)))).toBe(
      `ALARM: mains lost, tank low, benches drying (+2). ${WELL}`,
    );
  });

  it('does not begin with one that is over, or that can wait', () => {
    expect(saidWith([alarm('tank-low', 'returned-unacknowledged')])).toBe(WELL);
    expect(saidWith([alarm('not-recording')])).toBe(WELL);
  });

  it('leaves out what the rest of it tells, and no more: a hold or a lost board hides no missed flood', () => {
    const alarms = [alarm('hold-is-long'), alarm('missed-flood'), alarm('board-silent')];
    const orders = held(NO_ORDERS, 'Ana', 30, NOON.monotonic);
    const lost = { link: { kind: 'down', why: 'unplugged' }, linkDownSince: minute(497) } as const;
    const said = (state: Parameters<typeof restingHost>[0]): string =>
      stateSentence(restingHost({ ...state, alarms }), 'en');
    expect(said({ orders })).toBe(
      'ALARM: missed flood, board silent. Held by Ana until 12:30; the plants have about 83 min.',
    );
    expect(said({ orders, ...lost })).toBe(
      'ALARM: long hold, missed flood. NO BOARD for 3 min, about 83 min left. Held by Ana.',
    );
  });
});
