import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bootName, clockSource } from '../../../firmware-host/start/clock-source.ts';
import { utc } from '../../support/moments.ts';

const NOON = utc('2026-07-14T11:00Z');
const RTC = 'sys/class/rtc/rtc0';
const FETCHED = 'run/systemd/timesync/synchronized';

const machine = (files: Readonly<Record<string, string>>): string => {
  const root = mkdtempSync(join(tmpdir(), 'rillkeeper-machine-'));
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, name)), { recursive: true });
    writeFileSync(join(root, name), text);
  }
  return root;
};
const rtc = (hctosys: string, ahead: number): Readonly<Record<string, string>> => ({
  [`${RTC}/hctosys`]: `${hctosys}\n`,
  [`${RTC}/since_epoch`]: `${NOON / 1000 - ahead}\n`,
});

describe('what has set the wall clock', () => {
  it.each([
    ['nothing that is known', {}, 'unknown'],
    ['a battery clock', rtc('1', 3), 'battery-clock'],
    ['not the battery clock that is there', rtc('0', 3), 'unknown'],
    ['not a battery clock that lost its battery and shows 1970', rtc('1', NOON / 1000), 'unknown'],
    ['not one that is an hour off', rtc('1', -3600), 'unknown'],
    ['the network', { [FETCHED]: '' }, 'network'],
    ['the network, over a battery clock that was wrong', { ...rtc('1', 9999), [FETCHED]: '' }, 'network'],
  ] as const)('is %s', async (_, files, source) => {
    expect(await clockSource(NOON, machine(files), () => Promise.resolve(false))).toBe(source);
  });

  it('is the network where the kernel counts its clock as set by it, whichever program fetches the time', async () => {
    expect(await clockSource(NOON, machine({}), () => Promise.resolve(true))).toBe('network');
  });

  it('is asked of the machine itself without throwing, whether or not it runs systemd', async () => {
    expect(['network', 'battery-clock', 'unknown']).toContain(await clockSource(NOON, machine({})));
  });

  it('the kernel’s name of this start is read, and null where there is none', async () => {
    expect(await bootName(machine({ 'proc/sys/kernel/random/boot_id': 'abc-1\n' }))).toBe('abc-1');
    expect(await bootName(machine({}))).toBeNull();
  });
});
