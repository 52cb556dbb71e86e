import type { InjectorName } from '../faults/injectors.ts';
import type { RunRecord, Stretch } from './record.ts';
import { disturbed } from './stretches.ts';

const DISK_FAULTS: readonly InjectorName[] = ['disk-slow', 'disk-full', 'disk-failing'];

/** A disk that works again has what waited within this: the longest rest between two attempts, and some slow writes. */
const CAUGHT_UP_MILLIS = 60_000;
/** A power cut takes what the disk had in hand. */
const IN_HAND_MILLIS = 1000;
/** What waits for a disk that is slow. */
const IN_HAND_SLOW_MILLIS = 15_000;

/**
 * Stretches whose records may be missing, for they were in memory alone when the power was cut: from the moment at which a
 * disk broke, or from just before a cut.
 */
const lostRecords = ({ broken }: RunRecord): readonly Stretch[] =>
  broken
    .filter(({ name }) => name === 'host-killed')
    .map(({ fromMillis, untilMillis }) => {
      const disks = broken.filter(
        (fault) =>
          DISK_FAULTS.includes(fault.name) &&
          fault.fromMillis <= fromMillis &&
          fromMillis <= fault.untilMillis + CAUGHT_UP_MILLIS,
      );
      const first = Math.min(fromMillis, ...disks.map((disk) => disk.fromMillis));
      return {
        fromMillis: first - (disks.length > 0 ? IN_HAND_SLOW_MILLIS : IN_HAND_MILLIS),
        untilMillis,
      };
    });

export const isLost = (record: RunRecord, { fromMillis, untilMillis }: Stretch): boolean =>
  lostRecords(record).some((lost) => lost.fromMillis <= untilMillis && fromMillis <= lost.untilMillis);

/** Whether it may, and for longer than the last second: before a disk that was broken. */
export const isLostBeforeDisk = (record: RunRecord, span: Stretch): boolean =>
  isLost(record, span) && disturbed(record, DISK_FAULTS, span);

/** What waited before a disk that had no room may go out of turn: the spans of disk faults that run into one another, with a full one among them. */
const OUT_OF_TURN_MILLIS = 120_000;

/** Whether what was entered at this moment may have waited for a disk that was full. */
export const waitedForRoom = ({ broken }: RunRecord, atMillis: number): boolean => {
  const chains: { fromMillis: number; untilMillis: number; full: boolean }[] = [];
  const faults = broken.filter(({ name }) => DISK_FAULTS.includes(name));
  for (const { name, fromMillis, untilMillis } of faults.toSorted(
    (one, other) => one.fromMillis - other.fromMillis,
  )) {
    const full = name === 'disk-full';
    const last = chains.at(-1);
    if (last === undefined || fromMillis > last.untilMillis + OUT_OF_TURN_MILLIS) {
      chains.push({ fromMillis, untilMillis, full });
    } else {
      last.untilMillis = Math.max(last.untilMillis, untilMillis);
      last.full ||= full;
    }
  }
  return chains.some(
    ({ fromMillis, untilMillis, full }) =>
      full && fromMillis - OUT_OF_TURN_MILLIS <= atMillis && atMillis <= untilMillis + OUT_OF_TURN_MILLIS,
  );
};
