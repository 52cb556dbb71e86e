import type { Channel } from '../../../src/ports/sample.ts';
import type { InjectorName } from '../../faults/injectors.ts';
import { alarmSpans, type AlarmName } from '../alarm-log.ts';
import { AIR, FLOOR, lying, OF_A_FLOOD, POWER, RETURN, TANK } from '../lies.ts';
import type { Breach, Check, RunRecord } from '../record.ts';
import { seepingTold } from '../seeping.ts';
import { CLOCKS_ASTRAY, disturbed, HOST_AWAY, MINUTE, NO_WATER, RELAY_BROKEN, stepAt } from '../stretches.ts';
import { FLOAT_ABOVE_DRY_LITRES } from '../tank-float.ts';

/** An alarm may come this long after its cause has begun, and is about the last hours. */
const BEFORE_MINUTES = 360;
/** A thermometer that jumped and did not come back to where it was is held against that for half a day. */
const AIR_MINUTES = 13 * 60;
const TANK_LOW_LITRES = 30;
/** So near its brim a tank is full to whoever reads its level: one part in a hundred, and what a cheap sensor is wrong by. */
const BRIM = { share: 0.01, litres: 4 } as const;
const FLOAT_STILL_MINUTES = 30 * 24 * 60;

/** What may bring about an alarm: something broken, or a sensor that it goes by. */
interface Cause {
  readonly broken?: readonly InjectorName[];
  readonly lying?: readonly Channel[];
}

const CAUSES: Readonly<Record<AlarmName, Cause>> = {
  'missed-flood': {
    broken: [
      ...NO_WATER,
      'inlet-blocked',
      'branch-clogging',
      'board-reset',
      'relay-welded',
      'host-frozen',
      'late-ticks',
    ],
    lying: OF_A_FLOOD,
  },
  'weak-flow': {
    broken: [...NO_WATER, 'inlet-blocked', 'branch-clogging', 'late-ticks', 'host-frozen', 'board-reset'],
    lying: OF_A_FLOOD,
  },
  'return-lower': {
    broken: [...NO_WATER, 'inlet-blocked', 'branch-clogging', 'board-reset'],
    lying: RETURN,
  },
  'mains-lost': { broken: ['mains-lost'], lying: POWER },
  'pump-runs-on': { broken: RELAY_BROKEN, lying: [...RETURN, ...POWER] },
  'tank-low': { broken: [...NO_WATER, 'relay-welded'], lying: TANK },
  'float-suspect': { broken: [...NO_WATER, 'relay-welded'], lying: [...TANK, ...RETURN] },
  'tank-falls': { broken: ['leak', 'top-up-stopped'], lying: ['tank-level'] },
  'tank-full': { lying: ['tank-level'] },
  'water-on-floor': { broken: ['leak'], lying: FLOOR },
  'flow-sensor-silent': { broken: ['late-ticks', ...HOST_AWAY], lying: RETURN },
  'flow-sensor-stuck': { broken: RELAY_BROKEN, lying: [...RETURN, ...POWER] },
  'relay-chatters': { broken: RELAY_BROKEN, lying: ['relay-read-back'] },
  // No fault is needed: see `floatWasStill`.
  'float-unmoved': {},
  'clock-stepped': { broken: CLOCKS_ASTRAY },
  'no-good-temperature': { broken: [...HOST_AWAY, 'late-ticks'], lying: AIR },
  'hold-is-long': { broken: ['hold'] },
  // By all that keeps water away, or makes the roots seem drier than they are.
  'drying-out': {
    broken: [...NO_WATER, ...HOST_AWAY],
    lying: [...OF_A_FLOOD, ...TANK, ...FLOOR, ...AIR, 'humidity'],
  },
  'board-silent': { broken: ['link-lost', 'link-flapping', 'board-reset'] },
  'channel-dead': { broken: ['channel-refusing', 'channel-hung', 'network-gone'] },
  'not-recording': { broken: ['disk-full', 'disk-failing'] },
  // No host of the campaign has a probe.
  'strength-off': {},
  // Nothing of the campaign fails at its start, has a board with a clock of its own, a line that spoils, or a host that is hot, grows or has a battery.
  'safe-mode': {},
  'clock-drift': {},
  'line-bad': {},
  'host-hot': {},
  'host-large': {},
  'host-battery': {},
  // Nor is its book late, or damaged.
  'past-unread': {},
};

const tankLitresAt = (record: RunRecord, atMillis: number): number =>
  record.truth.tankLitres[stepAt(record, atMillis) - 1] ?? record.farm.tank.usualLitres;

/** A tank that plants and pump have drawn down truly is low. */
const tankIsLow = (record: RunRecord, atMillis: number): boolean =>
  tankLitresAt(record, atMillis) < record.farm.tank.dryLitres + TANK_LOW_LITRES;

/** Floods that a truly low tank has cut short in the last hours are missing, though it has filled a little since. */
const tankWasLow = (record: RunRecord, atMillis: number): boolean => {
  const lowLitres = record.farm.tank.dryLitres + TANK_LOW_LITRES;
  const from = stepAt(record, atMillis - BEFORE_MINUTES * MINUTE);
  return record.truth.tankLitres.slice(from, stepAt(record, atMillis)).some((litres) => litres < lowLitres);
};

const overItsBrim = (record: RunRecord, atMillis: number): boolean =>
  tankLitresAt(record, atMillis) >= record.farm.tank.litres - 1;

/** A tank into which the channels drain back to just below its brim truly is full, with no fault. */
const brimful = (record: RunRecord, atMillis: number): boolean => {
  const { litres } = record.farm.tank;
  return tankLitresAt(record, atMillis) >= litres - BRIM.share * litres - BRIM.litres;
};

/** That the float has not moved is told after 30 days in which truly nothing moved it, or it could not show it. */
const floatWasStill = (record: RunRecord, atMillis: number): boolean => {
  const fromMillis = atMillis - FLOAT_STILL_MINUTES * MINUTE;
  if (fromMillis < record.startMillis) return false;
  if (lying(record, ['tank-float'], { fromMillis, untilMillis: atMillis })) return true;
  const { tankLitres } = record.truth;
  const floatLitres = record.farm.tank.dryLitres + FLOAT_ABOVE_DRY_LITRES;
  const low = tankLitres
    .slice(stepAt(record, fromMillis), stepAt(record, atMillis))
    .map((litres) => litres < floatLitres);
  return new Set(low).size <= 1;
};

/** Alarms that are true with nothing broken, by the true water. */
const TRUE_BY_ITSELF: Partial<Record<AlarmName, (record: RunRecord, atMillis: number) => boolean>> = {
  'float-unmoved': floatWasStill,
  // What stands in the way of proving the next flood is true, and all that the alarm says.
  'flow-sensor-stuck': seepingTold,
  'water-on-floor': overItsBrim,
  'tank-full': brimful,
  'tank-low': tankIsLow,
  'drying-out': tankWasLow,
  'missed-flood': tankIsLow,
};

/** Whether something that was broken in the last minutes, or the true water, is a cause of this alarm. */
export const isExplained = (
  record: RunRecord,
  alarm: AlarmName,
  atMillis: number,
  beforeMinutes: number,
): boolean => {
  const { broken = [], lying: channels = [] } = CAUSES[alarm];
  const at = { fromMillis: atMillis, untilMillis: atMillis };
  if (disturbed(record, broken, at, beforeMinutes) || lying(record, channels, at, beforeMinutes)) return true;
  // Where every second word is lost, a sensor that is seldom asked is soon silent.
  if (channels.length > 0 && disturbed(record, ['samples-lost'], at, beforeMinutes)) return true;
  return TRUE_BY_ITSELF[alarm]?.(record, atMillis) ?? false;
};

/** I1, its second half: no alarm without a cause. */
export const causes: Check = (record) =>
  alarmSpans(record).flatMap(({ alarm, fromMillis }): readonly Breach[] => {
    const before = alarm === 'no-good-temperature' ? AIR_MINUTES : BEFORE_MINUTES;
    if (isExplained(record, alarm, fromMillis, before)) return [];
    return [
      {
        invariant: 'I1',
        atMillis: fromMillis,
        words: `alarm "${alarm}" without anything that could cause it in the ${BEFORE_MINUTES / 60} h before`,
      },
    ];
  });
