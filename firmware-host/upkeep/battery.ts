import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { HostHealth } from '../../src/ports/host-health.ts';
import { minutesBetween, type MonotonicMillis } from '../../src/time/instant.ts';
import { watched } from './watched.ts';

/** Of its charge, per cent: told from `at` down, and over above `over` or once nothing drains it. Common practice, no source. */
const LOW_PERCENT = { at: 20, over: 25 } as const;
const VERY_LOW_PERCENT = { at: 10, over: 15 } as const;
const EVERY_SECONDS = 60;
/** So many looks in a row must say so: a gauge may give nonsense for a moment when its charger is pulled. Judgement. */
const LOOKS = 2;
/** No battery that is drained shows the same for so long: such a gauge is stuck, and not believed until it moves. Judgement. */
const STUCK_HOURS = 6;

/** Of the battery that is emptiest among those that feed this machine and are being drained. */
export interface Drained {
  readonly percent: number;
  /** Where it tells of it; a gauge that lies about its charge seldom lies about that too. */
  readonly volts: number | null;
}

/** `unknown`: a battery that does not say whether it is drained, or how full it is. */
export type BatteryGauge = () => Promise<Drained | 'none-drained' | 'unknown'>;

const SUPPLIES = '/sys/class/power_supply';

type Seen = Drained | 'not-drained' | 'not-ours' | 'unknown';

/**
 * One supply: `type`, `scope`, `status`, `capacity` in per cent, `voltage_now` in microvolts (Linux kernel documentation,
 * ABI/testing/sysfs-class-power). `scope` is `Device` for what feeds a mouse or a keyboard and not this machine.
 */
const supplyOf = async (folder: string): Promise<Seen> => {
  const [type, scope, status, capacity, voltage] = await Promise.all(
    ['type', 'scope', 'status', 'capacity', 'voltage_now'].map((name) =>
      readFile(join(folder, name), 'utf8').then(
        (text) => text.trim(),
        () => '',
      ),
    ),
  );
  if ((type !== 'Battery' && type !== 'UPS') || scope === 'Device') return 'not-ours';
  if (status === 'Charging' || status === 'Full' || status === 'Not charging') return 'not-drained';
  const percent = /^\d+$/.test(capacity ?? '') ? Number(capacity) : NaN;
  if (status !== 'Discharging' || !(percent <= 100)) return 'unknown';
  const volts = /^\d+$/.test(voltage ?? '') ? Number(voltage) / 1e6 : NaN;
  return { percent, volts: volts > 0 ? volts : null };
};

/** The supplies of Linux. One that says nothing hides none that is being drained. */
export const powerSupplies =
  (folder: string = SUPPLIES): BatteryGauge =>
  async () => {
    const names = await readdir(folder).catch(() => []);
    const seen = await Promise.all(names.map((name) => supplyOf(join(folder, name))));
    const [first, ...others] = seen.filter((supply) => typeof supply === 'object');
    if (first === undefined) return seen.includes('unknown') ? 'unknown' : 'none-drained';
    return others.reduce((emptiest, one) => (one.percent < emptiest.percent ? one : emptiest), first);
  };

/** A battery that is being drained, from look to look. */
export interface BatteryCourse extends Drained {
  /** Since when it shows the same charge. */
  readonly steadySince: MonotonicMillis;
  readonly low: { readonly since: MonotonicMillis; readonly looks: number } | null;
  readonly level: 'low' | 'very-low';
}

/** With one look more; what cannot be read is as it was. */
export const batteryAfter = (
  before: BatteryCourse | null,
  seen: Awaited<ReturnType<BatteryGauge>>,
  now: MonotonicMillis,
): BatteryCourse | null => {
  if (seen === 'unknown') return before;
  if (seen === 'none-drained') return null;
  const low = before?.low ?? null;
  const bound = low === null ? LOW_PERCENT.at : LOW_PERCENT.over;
  const deep = before?.level === 'very-low' ? VERY_LOW_PERCENT.over : VERY_LOW_PERCENT.at;
  return {
    ...seen,
    steadySince: before?.percent === seen.percent ? before.steadySince : now,
    low: seen.percent <= bound ? { since: low?.since ?? now, looks: (low?.looks ?? 0) + 1 } : null,
    level: seen.percent <= deep ? 'very-low' : 'low',
  };
};

/** What is to be told of it at this moment. */
export const toldOf = (course: BatteryCourse | null, now: MonotonicMillis): HostHealth['battery'] => {
  const low = course?.low ?? null;
  if (course === null || low === null || low.looks < LOOKS) return null;
  if (minutesBetween(course.steadySince, now) >= STUCK_HOURS * 60) return null;
  const { percent, volts, level } = course;
  return { percent, volts, level, since: low.since };
};

/** A gauge may be slow to answer. */
export const batteryWatch = (gauge: BatteryGauge): ((now: MonotonicMillis) => HostHealth['battery']) => {
  const course = watched(EVERY_SECONDS, gauge, batteryAfter);
  return (now) => toldOf(course(now), now);
};
