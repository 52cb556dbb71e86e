import { describe, expect, it } from 'vitest';
import { demoWiring } from '../../../sim/board/demo-wiring.ts';
import { begin, step } from '../../../src/controller.ts';
import type { Alarm, AlarmState } from '../../../src/alarm/alarm.ts';
import type { AlarmKind } from '../../../src/alarm/card.ts';
import { statusSentence } from '../../../firmware-host/status-view.ts';
import { alarmIn, cardOf } from '../alarm/made-alarms.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';

const NOW = { monotonic: minute(500), wall: utc('2026-07-14T11:00Z') };
const RESTING = step(exampleFarm, begin(exampleFarm, NOW, { kind: 'up' }), { kind: 'time' }, NOW);
const WET = { theta: 0.9, thetaLow: 0.8 };

/** What a text with "?" is answered, and what the broker keeps. */
const saidWith = (alarms: readonly Alarm[]): string =>
  statusSentence({
    farm: exampleFarm,
    wiring: demoWiring(exampleFarm),
    calibration: null,
    simulated: false,
    board: { says: 'a board', warning: null },
    step: {
      ...RESTING,
      nextFloodAt: minute(527),
      state: { ...RESTING.state, belief: { ...RESTING.state.belief, benches: [WET] }, alarms },
    },
    last: { verdict: { kind: 'confirmed', says: '' }, at: minute(490) },
    now: NOW,
  });
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

  it('does not begin with one that is over, that can wait, or that the sentence tells by itself', () => {
    expect(saidWith([alarm('tank-low', 'returned-unacknowledged')])).toBe(WELL);
    expect(saidWith([alarm('not-recording')])).toBe(WELL);
    expect(saidWith([alarm('hold-is-long'), alarm('missed-flood'), alarm('board-silent')])).toBe(WELL);
  });
});
