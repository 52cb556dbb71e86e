import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import {
  batteryAfter,
  batteryWatch,
  powerSupplies,
  toldOf,
  type BatteryCourse,
  type BatteryGauge,
} from '../../../firmware-host/upkeep/battery.ts';
import { minute, second } from '../../support/moments.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'rillkeeper-supply-'));
});
/** One supply as Linux shows it: Linux kernel documentation, ABI/testing/sysfs-class-power. */
const supply = (name: string, files: Readonly<Record<string, string>>): void => {
  mkdirSync(join(folder, name), { recursive: true });
  for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, name, file), `${text}\n`);
};
const BATTERY = { type: 'Battery', status: 'Discharging', capacity: '18', voltage_now: '11430000' };

describe('the power supplies of Linux', () => {
  it('tell charge in per cent and voltage in microvolts of the battery that is drained, the emptiest of several', async () => {
    supply('AC', { type: 'Mains', online: '0' });
    supply('BAT0', BATTERY);
    expect(await powerSupplies(folder)()).toEqual({ percent: 18, volts: 11.43 });
    supply('BAT1', { ...BATTERY, capacity: '7' });
    expect(await powerSupplies(folder)()).toMatchObject({ percent: 7 });
    supply('BAT2', { type: 'UPS', status: 'Discharging', capacity: '3' });
    expect(await powerSupplies(folder)()).toEqual({ percent: 3, volts: null });
  });

  it.each(['Charging', 'Full', 'Not charging'])(
    'tell of none while it is %s, though it shows 0 %%',
    async (status) => {
      supply('BAT0', { ...BATTERY, status, capacity: '0' });
      expect(await powerSupplies(folder)()).toBe('none-drained');
    },
  );

  it('tell nothing of the battery of a mouse, nor on a machine without any', async () => {
    expect(await powerSupplies(folder)()).toBe('none-drained');
    expect(await powerSupplies(join(folder, 'not-there'))()).toBe('none-drained');
    supply('hid-mouse', { ...BATTERY, scope: 'Device', capacity: '2' });
    supply('AC', { type: 'Mains', status: 'Discharging', capacity: '1' });
    expect(await powerSupplies(folder)()).toBe('none-drained');
  });

  it.each<readonly [what: string, files: Readonly<Record<string, string>>]>([
    ['no status', { status: '' }],
    ['an unknown status', { status: 'Unknown' }],
    ['no charge', { capacity: '' }],
    ['a charge of 101 %', { capacity: '101' }],
    ['a charge of -1 %', { capacity: '-1' }],
    ['words for a charge', { capacity: 'Low' }],
  ])('do not know of a battery with %s, and hide no other for it', async (_, files) => {
    supply('BAT0', { ...BATTERY, ...files });
    expect(await powerSupplies(folder)()).toBe('unknown');
    supply('BAT1', BATTERY);
    expect(await powerSupplies(folder)()).toMatchObject({ percent: 18 });
  });

  it('tell the charge without a voltage that makes no sense', async () => {
    for (const voltage of ['0', 'x', '-5']) {
      supply('BAT0', { ...BATTERY, voltage_now: voltage });
      expect(await powerSupplies(folder)()).toEqual({ percent: 18, volts: null });
    }
    rmSync(join(folder, 'BAT0/voltage_now'));
    expect(await powerSupplies(folder)()).toEqual({ percent: 18, volts: null });
  });
});

type Look = number | Exclude<Awaited<ReturnType<BatteryGauge>>, object>;
/** One look a minute; what is told after the last. */
const told = (...looks: readonly Look[]): ReturnType<typeof toldOf> => {
  const course = looks.reduce<BatteryCourse | null>(
    (before, look, place) =>
      batteryAfter(before, typeof look === 'number' ? { percent: look, volts: null } : look, minute(place)),
    null,
  );
  return toldOf(course, minute(looks.length - 1));
};

describe('a battery of the host that is drained', () => {
  it('is told at 20 %, at the second look in a row, since the first; at 21 % not', () => {
    expect(told(21, 21)).toBeNull();
    expect(told(21, 20)).toBeNull();
    expect(told(21, 20, 19)).toEqual({ percent: 19, volts: null, level: 'low', since: minute(1) });
    expect(told(20, 60, 20)).toBeNull();
  });

  it('is very low at 10 %, until above 15 %', () => {
    expect([told(11, 11)?.level, told(11, 10)?.level]).toEqual(['low', 'very-low']);
    expect([told(11, 10, 15)?.level, told(11, 10, 16)?.level]).toEqual(['very-low', 'low']);
  });

  it('is over above 25 %, and at once when nothing drains it', () => {
    expect([told(20, 19, 25)?.percent, told(20, 19, 26)]).toEqual([25, null]);
    expect(told(5, 5, 'none-drained')).toBeNull();
  });

  it('is as it was while it cannot be read', () => {
    expect(told(20, 19, 'unknown', 'unknown')).toMatchObject({ percent: 19 });
    expect(told('unknown', 'unknown')).toBeNull();
  });

  it('whose gauge shows 0 % for six hours is not believed, and is again once it moves', () => {
    const stuck = (minutes: number): Look[] => Array.from({ length: minutes + 1 }, () => 0);
    expect(told(...stuck(359))).toMatchObject({ percent: 0, level: 'very-low' });
    expect(told(...stuck(360))).toBeNull();
    expect(told(...stuck(3000))).toBeNull();
    expect(told(...stuck(3000), 8)).toMatchObject({ percent: 8 });
  });

  it('is looked at once a minute', async () => {
    let looks = 0;
    const battery = batteryWatch(() => {
      looks += 1;
      return Promise.resolve({ percent: 12, volts: 11 });
    });
    for (let now = 0; now <= 120; now += 1) {
      battery(second(now));
      await Promise.resolve();
      await Promise.resolve();
    }
    expect(looks).toBe(3);
    expect(battery(second(121))).toEqual({ percent: 12, volts: 11, level: 'low', since: second(0) });
  });
});
