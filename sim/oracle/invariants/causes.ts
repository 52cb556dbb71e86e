import type { InjectorName } from '../../faults/injectors.ts';
import { alarmSpans, type AlarmName } from '../alarm-log.ts';
import type { Breach, Check, RunRecord } from '../record.ts';
import {
  CLOCKS_ASTRAY,
  disturbed,
  HOST_AWAY,
  MINUTE,
  NO_WATER,
  RELAY_BROKEN,
  seeps,
  SENSORS_LIE,
  stepAt,
} from '../stretches.ts';

/** An alarm may come this long after its cause has begun, and is about the last hours. */
const BEFORE_MINUTES = 360;
/** A thermometer that jumped and did not come back to where it was is held against that for half a day. */
const AIR_MINUTES = 13 * 60;
const TANK_LOW_LITRES = 30;
/** So near its brim a tank is full to whoever reads its level: one part in a hundred, and what a cheap sensor is wrong by. */
const BRIM = { share: 0.01, litres: 4 } as const;
/** The float of the shed hangs so far above the dry end of its tank. */
const FLOAT_ABOVE_DRY_LITRES = 20;
const FLOAT_STILL_MINUTES = 30 * 24 * 60;

const AIR: readonly InjectorName[] = ['air-silent', 'air-open', 'air-in-sun'];

/** What may bring about each alarm. */
const CAUSES: Readonly<Record<AlarmName, readonly InjectorName[]>> = {
  'missed-flood': [
    ...NO_WATER,
    ...SENSORS_LIE,
    'inlet-blocked',
    'branch-clogging',
    'board-reset',
    'relay-welded',
    'host-frozen',
    'late-ticks',
  ],
  'weak-flow': [
    ...NO_WATER,
    ...SENSORS_LIE,
    'inlet-blocked',
    'branch-clogging',
    'late-ticks',
    'host-frozen',
    'board-reset',
  ],
  'return-lower': [...NO_WATER, ...SENSORS_LIE, 'inlet-blocked', 'branch-clogging', 'board-reset'],
  'mains-lost': ['mains-lost', ...SENSORS_LIE],
  'pump-runs-on': [...RELAY_BROKEN, ...SENSORS_LIE],
  'tank-low': [...NO_WATER, ...SENSORS_LIE, 'relay-welded'],
  'float-suspect': [...NO_WATER, ...SENSORS_LIE, 'relay-welded'],
  'tank-falls': ['leak', ...SENSORS_LIE],
  'tank-full': SENSORS_LIE,
  'water-on-floor': ['leak', ...SENSORS_LIE],
  'flow-sensor-silent': [...SENSORS_LIE, 'host-frozen', 'late-ticks', ...HOST_AWAY],
  'flow-sensor-stuck': [...SENSORS_LIE, ...RELAY_BROKEN],
  'relay-chatters': [...RELAY_BROKEN, ...SENSORS_LIE],
  // No fault is needed: see `floatWasStill`.
  'float-unmoved': [],
  'clock-stepped': CLOCKS_ASTRAY,
  'no-good-temperature': [...AIR, ...SENSORS_LIE, ...HOST_AWAY, 'late-ticks'],
  'hold-is-long': ['hold'],
  'drying-out': [...NO_WATER, ...HOST_AWAY, ...SENSORS_LIE],
  'board-silent': ['link-lost', 'link-flapping', 'board-reset'],
  'channel-dead': ['channel-refusing', 'channel-hung', 'network-gone'],
  'not-recording': ['disk-full', 'disk-failing'],
  // No host of the campaign has a probe.
  'strength-off': [],
  // Nothing of the campaign fails at its start, has a board with a clock of its own, a line that spoils, or a host that is hot, grows or has a battery.
  'safe-mode': [],
  'clock-drift': [],
  'line-bad': [],
  'host-hot': [],
  'host-large': [],
  'host-battery': [],
};

const tankLitresAt = (record: RunRecord, atMillis: number): number =>
  record.truth.tankLitres[stepAt(record, atMillis) - 1] ?? record.farm.tank.usualLitres;

/** A tank that plants and pump have drawn down truly is low. */
const tankIsLow = (record: RunRecord, atMillis: number): boolean =>
  tankLitresAt(record, atMillis) < record.farm.tank.dryLitres + TANK_LOW_LITRES;

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
  if (disturbed(record, SENSORS_LIE, { fromMillis, untilMillis: atMillis })) return true;
  const { tankLitres } = record.truth;
  const floatLitres = record.farm.tank.dryLitres + FLOAT_ABOVE_DRY_LITRES;
  const low = tankLitres
    .slice(stepAt(record, fromMillis), stepAt(record, atMillis))
    .map((litres) => litres < floatLitres);
  return new Set(low).size <= 1;
};

/** I1, its second half: no alarm without a cause. */
export const causes: Check = (record) =>
  alarmSpans(record).flatMap(({ alarm, fromMillis }): readonly Breach[] => {
    const at = { fromMillis, untilMillis: fromMillis };
    const known = CAUSES[alarm];
    if (disturbed(record, known, at, alarm === 'no-good-temperature' ? AIR_MINUTES : BEFORE_MINUTES))
      return [];
    if (alarm === 'float-unmoved' && floatWasStill(record, fromMillis)) return [];
    // What stands in the way of proving the next flood is true, and all that the alarm says.
    if (alarm === 'flow-sensor-stuck' && seeps(record, fromMillis)) return [];
    if (alarm === 'water-on-floor' && overItsBrim(record, fromMillis)) return [];
    if (alarm === 'tank-full' && brimful(record, fromMillis)) return [];
    if (
      (alarm === 'tank-low' || alarm === 'drying-out' || alarm === 'missed-flood') &&
      tankIsLow(record, fromMillis)
    )
      return [];
    return [
      {
        invariant: 'I1',
        atMillis: fromMillis,
        words: `alarm "${alarm}" without anything that could cause it in the ${BEFORE_MINUTES / 60} h before`,
      },
    ];
  });
