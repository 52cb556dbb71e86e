import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import { watched } from './watched.ts';

/** From here on it is told (faults.md, row 9); small boards slow themselves down a little above. */
const HOT_CELSIUS = 75;
/** And it is over below this, so that a chip at its limit does not come and go. Judgement. */
const COOLED_CELSIUS = 70;
const EVERY_SECONDS = 10;
/** Outside these it is no chip that still runs this program, but a zone that has nothing to tell. Judgement. */
const PLAUSIBLE_CELSIUS = { least: -40, most: 150 } as const;

/** The hottest place that the machine tells of; null where it tells of none. */
export type Thermometer = () => Promise<number | null>;

export interface ChipHeat {
  readonly celsius: number;
  readonly since: MonotonicMillis;
}

const ZONES = '/sys/class/thermal';

const zoneCelsius = async (folder: string): Promise<number | null> => {
  // A zone may be switched off, and then cannot be read: it has nothing to tell.
  const text = await readFile(join(folder, 'temp'), 'utf8').catch(() => '');
  const celsius = /^-?\d+\s*$/.test(text) ? Number(text) / 1000 : NaN;
  return celsius >= PLAUSIBLE_CELSIUS.least && celsius <= PLAUSIBLE_CELSIUS.most ? celsius : null;
};

/**
 * The thermal zones of Linux: the `temp` of each `thermal_zone`, in thousandths of a degree Celsius (Linux kernel documentation,
 * driver-api/thermal/sysfs-api). Null on a machine without any.
 */
export const thermalZones =
  (folder: string = ZONES): Thermometer =>
  async () => {
    const names = await readdir(folder).catch(() => []);
    const zones = names.filter((name) => /^thermal_zone\d+$/.test(name));
    const read = await Promise.all(zones.map((zone) => zoneCelsius(join(folder, zone))));
    const told = read.filter((celsius) => celsius !== null);
    return told.length === 0 ? null : Math.max(...told);
  };

/** Whether the chip is too hot, with one reading more; what cannot be read is as it was. */
export const heatAfter = (
  before: ChipHeat | null,
  celsius: number | null,
  now: MonotonicMillis,
): ChipHeat | null => {
  if (celsius === null) return before;
  const isHot = celsius >= (before === null ? HOT_CELSIUS : COOLED_CELSIUS);
  return isHot ? { celsius, since: before?.since ?? now } : null;
};

/** A thermal zone may be slow to answer. */
export const chipWatch = (thermometer: Thermometer): ((now: MonotonicMillis) => ChipHeat | null) =>
  watched(EVERY_SECONDS, thermometer, heatAfter);
