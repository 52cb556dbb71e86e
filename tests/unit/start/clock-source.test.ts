import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { bootName, clockSource } from '../../../firmware-host/start/clock-source.ts';
import { pathWithTimedatectl } from '../../support/made-timedatectl.ts';
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

  it.each([
    ['the network, where the kernel counts its clock as set by it', ['echo yes'], 'network'],
    ['unknown where it does not', ['echo no'], 'unknown'],
    ['unknown where there is no systemd', ['echo "Failed to connect to bus" >&2', 'exit 1'], 'unknown'],
    ['unknown where the answer does not come', ['exec sleep 30', 'echo yes'], 'unknown'],
  ] as const)('is %s', async (_, lines, source) => {
    vi.stubEnv('PATH', pathWithTimedatectl(...lines));
    expect(await clockSource(NOON, machine({}))).toBe(source);
    vi.unstubAllEnvs();
  });

  it('is unknown within 2 s, where the answer does not come and heeds no signal to end', async () => {
    vi.stubEnv('PATH', pathWithTimedatectl("trap '' TERM", 'for i in 1 2 3 4 5 6 7 8; do sleep 1; done'));
    const since = performance.now();
    expect(await clockSource(NOON, machine({}))).toBe('unknown');
    expect(performance.now() - since).toBeLessThan(2000);
    vi.unstubAllEnvs();
  });

  it('is unknown where no program can be begun, as with an environment of 200 kB', async () => {
    vi.stubEnv('RILLKEEPER_LARGE', 'x'.repeat(200_000));
    expect(await clockSource(NOON, machine({}))).toBe('unknown');
    vi.unstubAllEnvs();
  });

  it('the kernel’s name of this start is read, and null where there is none', async () => {
    expect(await bootName(machine({ 'proc/sys/kernel/random/boot_id': 'abc-1\n' }))).toBe('abc-1');
    expect(await bootName(machine({}))).toBeNull();
  });
});
