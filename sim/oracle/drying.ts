import { alarmSpans, type AlarmName } from './alarm-log.ts';
import { rowsOf, type RunRecord, type Stretch } from './record.ts';
import { MINUTE } from './stretches.ts';

/**
 * Alarms whose own words tell a person that plants may go dry: no water came, or what keeps it away. While one of these stands
 * somebody knows, however long before it came. What tells of too much water, or of an eye that is blind, is not among them:
 * whoever came for that has seen benches that were wet.
 */
const TELLS_OF_DRYING: readonly AlarmName[] = [
  'missed-flood',
  'mains-lost',
  'board-silent',
  'tank-low',
  'tank-falls',
  'hold-is-long',
  'drying-out',
];

/** Any other that is high brings somebody to the shed too, but only when it comes once the water has gone; the steps of the plant are a minute. */
const SINCE_MILLIS = MINUTE;

/** Whether anybody was called who then knew, or saw, that no water comes. */
export const isCalled = (record: RunRecord, lostMillis: number, byMillis: number): boolean =>
  alarmSpans(record).some(
    ({ alarm, priority, fromMillis, untilMillis }) =>
      priority === 'high' &&
      fromMillis <= byMillis &&
      (TELLS_OF_DRYING.includes(alarm) ? untilMillis >= lostMillis : fromMillis >= lostMillis - SINCE_MILLIS),
  );

/** What fell due while nobody was there comes within this, once the motor has rested. */
const BORN_MINUTES = 2;
/** From the start of a flood without water to its alarm: the return lag, two tries, a minute. */
const LAG_MINUTES = 8;
const TRIES = { count: 2, minutes: 3 } as const;
const TOLD_MINUTES = 1;

/** From the beginning of a flood that gives no water to its alarm. */
const toldAfterMinutes = ({ farm }: RunRecord): number =>
  LAG_MINUTES + TRIES.count * (TRIES.minutes + farm.pump.shortestOffSeconds / 60) + TOLD_MINUTES;

/**
 * When the first flood after a moment has told that it gave no water: of a pump that fails while it rests nothing can tell sooner,
 * and whether that flood came in time is another question. Where none came, that moment itself.
 */
export const firstFloodTold = (record: RunRecord, fromMillis: number): number => {
  const first = rowsOf(record, 'flood-started').find(({ atMillis }) => atMillis >= fromMillis);
  return first === undefined ? fromMillis : first.atMillis + toldAfterMinutes(record) * MINUTE;
};

/** When a host that is back must have found out at the latest: by the first flood after the longest rest since the last one. */
const foundOutBy = (record: RunRecord, backMillis: number): number => {
  const { farm, truth } = record;
  const { restMinutesByDay, restMinutesByNight } = farm.bounds;
  const longest = Math.max(restMinutesByDay.longest, restMinutesByNight.longest);
  // A flood in which the host ended is judged with the next one.
  const begun = rowsOf(record, 'flood-started').map(
    ({ atMillis, entry }) => atMillis + entry.minutes * MINUTE,
  );
  const last = [...begun, ...truth.runs.map(({ untilMillis }) => untilMillis)]
    .filter((atMillis) => atMillis <= backMillis)
    .reduce((one, other) => Math.max(one, other), record.startMillis);
  const dueMillis = Math.max(backMillis + BORN_MINUTES * MINUTE, last + longest * MINUTE);
  return dueMillis + toldAfterMinutes(record) * MINUTE;
};

/**
 * When somebody must have been called about water that went at a moment: in half of the time, and later only where the host was
 * dead or frozen meanwhile and so little is left after that that it cannot have found out. An outside watcher tells of those.
 */
export const callDueBy = (record: RunRecord, { fromMillis, untilMillis }: Stretch): number =>
  record.broken
    .filter(({ name }) => name === 'host-killed' || name === 'host-frozen')
    .toSorted((one, other) => one.fromMillis - other.fromMillis)
    .reduce(
      (byMillis, away) =>
        away.fromMillis <= byMillis && away.untilMillis >= fromMillis
          ? Math.max(byMillis, foundOutBy(record, away.untilMillis))
          : byMillis,
      untilMillis,
    );
