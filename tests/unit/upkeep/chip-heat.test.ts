import { mkdtemp, mkdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  chipWatch,
  heatAfter,
  thermalZones,
  type ChipHeat,
} from '../../../firmware-host/upkeep/chip-heat.ts';
import { second } from '../../support/moments.ts';

describe('the thermal zones of Linux', () => {
  let folder = '';
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'thermal-'));
  });
  afterEach(() => rm(folder, { recursive: true }));
  const zone = async (name: string, temp: string): Promise<void> => {
    await mkdir(join(folder, name));
    await writeFile(join(folder, name, 'temp'), temp);
  };

  /** Thousandths of a degree: Linux kernel documentation, driver-api/thermal/sysfs-api, `temp`. */
  it('are read in thousandths of a degree, and the hottest counts', async () => {
    await zone('thermal_zone0', '48312\n');
    await zone('thermal_zone1', '76500\n');
    await zone('cooling_device0', '99000\n');
    expect(await thermalZones(folder)()).toBe(76.5);
  });

  it('that cannot be read, or tell of no chip, are left out', async () => {
    await mkdir(join(folder, 'thermal_zone0'));
    await zone('thermal_zone1', 'hot\n');
    await zone('thermal_zone2', '-273000\n');
    await zone('thermal_zone3', '200000\n');
    expect(await thermalZones(folder)()).toBeNull();
    await zone('thermal_zone4', '31000\n');
    expect(await thermalZones(folder)()).toBe(31);
  });

  it('are none on a machine that has none', async () => {
    expect(await thermalZones(join(folder, 'not-there'))()).toBeNull();
  });
});

describe('a chip', () => {
  const after = (...celsius: readonly (number | null)[]): ChipHeat | null =>
    celsius.reduce<ChipHeat | null>((heat, shown, at) => heatAfter(heat, shown, second(10 * at)), null);

  it('is too hot from 75 °C on, until it is below 70 °C, since the first reading', () => {
    expect(after(74.9)).toBeNull();
    expect(after(70, 75)).toEqual({ celsius: 75, since: second(10) });
    expect(after(70, 75, 70)).toEqual({ celsius: 70, since: second(10) });
    expect(after(70, 75, 69.9)).toBeNull();
    expect(after(70, 75, 69.9, 74.9)).toBeNull();
  });

  it('that cannot be read is as it was', () => {
    expect(after(75, null)).toEqual({ celsius: 75, since: second(0) });
    expect(after(60, null)).toBeNull();
  });

  it('is looked at every 10 s, and never twice at once, however slow the answer', async () => {
    let looks = 0;
    let answer: (celsius: number) => void = () => undefined;
    const heat = chipWatch(() => {
      looks += 1;
      return new Promise((told) => {
        answer = told;
      });
    });
    for (let now = 0; now <= 30; now += 1) expect(heat(second(now))).toBeNull();
    expect(looks).toBe(1);
    answer(80);
    await Promise.resolve();
    await Promise.resolve();
    expect(heat(second(31))).toEqual({ celsius: 80, since: second(0) });
    expect(looks).toBe(2);
  });
});
