import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { saidBriefly } from '../brief-program.ts';

/**
 * What has set the wall clock of this machine since it was started. A small computer without a battery clock goes on from the
 * time that it last wrote to its disk: plausible, and wrong by as long as it was without power.
 */
export type ClockSource = 'battery-clock' | 'network' | 'unknown';

/** `hctosys` is 1 where the kernel set its time from this clock at boot (Linux, Documentation/admin-guide/rtc.rst). */
const BATTERY_CLOCK = 'sys/class/rtc/rtc0';
/** A battery clock that the system time has left behind by more than this lost its battery, and was not what set it. */
const SAME_TIME_SECONDS = 120;
/** Touched when the time has been fetched since this start (systemd-timesyncd.service(8)). */
const FETCHED = 'run/systemd/timesync/synchronized';
/** Whoever hangs is not waited for: floods wait for the start. */
const AT_START_SECONDS = 1;

const textOf = (path: string): Promise<string> =>
  readFile(path, 'utf8').then(
    (text) => text.trim(),
    () => '',
  );

const isThere = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  );

/**
 * Whether the kernel counts its clock as set by the network, whichever program fetches the time: `NTPSynchronized` of
 * timedatectl(1), from adjtimex(2). A machine without systemd does not say, nor one that takes longer than `seconds`.
 */
export const kernelSaysFetched = async (seconds: number): Promise<boolean> => {
  const words = ['show', '--property=NTPSynchronized', '--value'];
  return (await saidBriefly('timedatectl', words, seconds * 1000))?.trim() === 'yes';
};

/** `root` is where the file system begins. */
export const clockSource = async (
  wallMillisNow: number,
  root = '/',
  isFetched: () => Promise<boolean> = () => kernelSaysFetched(AT_START_SECONDS),
): Promise<ClockSource> => {
  if ((await isThere(join(root, FETCHED))) || (await isFetched())) return 'network';
  if ((await textOf(join(root, BATTERY_CLOCK, 'hctosys'))) !== '1') return 'unknown';
  const seconds = await textOf(join(root, BATTERY_CLOCK, 'since_epoch'));
  const ahead = wallMillisNow / 1000 - Number(seconds);
  return seconds !== '' && Math.abs(ahead) <= SAME_TIME_SECONDS ? 'battery-clock' : 'unknown';
};

/** The kernel's name for the time since this machine was started; null where there is none. */
export const bootName = async (root = '/'): Promise<string | null> => {
  const name = await textOf(join(root, 'proc/sys/kernel/random/boot_id'));
  return name === '' ? null : name;
};
