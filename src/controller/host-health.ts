import type { DeadChannel, HostHealth, JournalHealth } from '../ports/host-health.ts';
import { monotonicMillis, secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import { STRENGTH_UNIT, type NamedReading } from '../sense/readings.ts';

/** A write that has not come back for so long never will: a disk that hangs records nothing. */
const HUNG_WRITE_SECONDS = 60;

/** A host looks at itself once a second. One that has not for so long was stopped, or its machine slept. */
const AWAY_SECONDS = 5;

/** A stretch in which the host did nothing, and knew nothing of it. */
export interface Standstill {
  readonly from: MonotonicMillis;
  readonly until: MonotonicMillis;
}

/** The last standstill, after a look at this moment. */
export const lastStandstill = (
  before: Standstill | null,
  lookedAt: MonotonicMillis | null,
  now: MonotonicMillis,
): Standstill | null =>
  lookedAt !== null && secondsBetween(lookedAt, now) > AWAY_SECONDS ? { from: lookedAt, until: now } : before;

/** How much of the time since then the host stood still; of several standstills only the last is known. */
const stoodSeconds = (stood: Standstill | null, since: MonotonicMillis): number =>
  stood === null ? 0 : Math.max(0, secondsBetween(monotonicMillis(Math.max(stood.from, since)), stood.until));

/**
 * What the journal says of itself; one that hangs is one that does not record. While the host stood still the disk had no
 * chance to be heard, nor its thread to go on: that time does not count, or each write in hand would seem to have hung.
 */
const recording = ({ journal, stood }: HealthSeen, now: MonotonicMillis): JournalHealth => {
  if (journal.kind !== 'behind') return journal;
  const since = monotonicMillis(now - journal.seconds * 1000);
  if (journal.seconds - stoodSeconds(stood, since) < HUNG_WRITE_SECONDS) return journal;
  return {
    kind: 'not-recording',
    why: `the disk has not taken anything for ${Math.floor(journal.seconds / 60)} min`,
    sinceMonotonic: since,
    dropped: 0,
  };
};

/** A slow disk is no word for a person: only that nothing is recorded is, and it changes nothing from tick to tick. */
const settled = (journal: JournalHealth): JournalHealth =>
  journal.kind === 'behind' ? { kind: 'well' } : journal;

const strengthOf = (readings: readonly NamedReading[]): number | null => {
  const found = readings.find(({ unit }) => unit === STRENGTH_UNIT);
  return found?.reading.quality === 'good' && typeof found.value === 'number' ? found.value : null;
};

export interface HealthSeen {
  /** Null where the host has not stood still since its start. */
  readonly stood: Standstill | null;
  readonly journal: JournalHealth;
  readonly channels: readonly DeadChannel[];
  readonly starts: Pick<HostHealth, 'safeMode'> & { readonly starts: number };
  readonly pastUnread: HostHealth['pastUnread'];
  readonly boardClock: HostHealth['boardClock'];
  readonly line: HostHealth['line'];
  readonly chip: HostHealth['chip'];
  readonly memory: HostHealth['memory'];
  readonly battery: HostHealth['battery'];
  readonly readings: readonly NamedReading[];
}

/** What the host knows of itself, put together for the alarms. */
export const hostHealth = (seen: HealthSeen, now: MonotonicMillis): HostHealth => ({
  journal: settled(recording(seen, now)),
  channels: seen.channels,
  safeMode: seen.starts.safeMode,
  restarts: seen.starts.starts,
  pastUnread: seen.pastUnread ?? null,
  boardClock: seen.boardClock ?? null,
  line: seen.line ?? null,
  chip: seen.chip ?? null,
  memory: seen.memory ?? null,
  battery: seen.battery ?? null,
  strengthMillisiemensPerCm: strengthOf(seen.readings),
});

const sameJournal = (one: JournalHealth, other: JournalHealth): boolean =>
  one.kind === 'not-recording' && other.kind === 'not-recording'
    ? one.why === other.why
    : one.kind === other.kind;

const namesOf = ({ channels }: HostHealth): string => channels.map(({ name }) => name).join(' ');
/** Drift is told by tenths of a per cent, spoilt messages and heat by whole ones, memory by tens, strength by hundredths: noise below is no news. */
const rounded = (value: number | null | undefined, digits: number): string => value?.toFixed(digits) ?? '';

/** Whether nothing has changed that an alarm or a message could tell. */
export const sameHealth = (one: HostHealth, other: HostHealth): boolean =>
  sameJournal(one.journal, other.journal) &&
  namesOf(one) === namesOf(other) &&
  one.safeMode === other.safeMode &&
  one.restarts === other.restarts &&
  one.pastUnread?.why === other.pastUnread?.why &&
  rounded(one.boardClock?.percentFast, 1) === rounded(other.boardClock?.percentFast, 1) &&
  rounded(one.line?.percentSpoilt, 0) === rounded(other.line?.percentSpoilt, 0) &&
  rounded(one.chip?.celsius, 0) === rounded(other.chip?.celsius, 0) &&
  rounded(one.memory && one.memory.megabytes / 10, 0) ===
    rounded(other.memory && other.memory.megabytes / 10, 0) &&
  one.battery?.level === other.battery?.level &&
  one.battery?.percent === other.battery?.percent &&
  one.memory?.renewed === other.memory?.renewed &&
  rounded(one.strengthMillisiemensPerCm, 2) === rounded(other.strengthMillisiemensPerCm, 2);
