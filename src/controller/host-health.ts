import type { DeadChannel, HostHealth, JournalHealth } from '../ports/host-health.ts';
import { monotonicMillis, secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import { STRENGTH_UNIT, type NamedReading } from '../sense/readings.ts';

/** A write that has not come back for so long never will: a disk that hangs records nothing. */
const HUNG_WRITE_SECONDS = 60;

/** A host looks at itself once a second. One that has not for so long was stopped, or its machine slept. */
const AWAY_SECONDS = 5;

/**
 * What the journal says of itself; one that hangs is one that does not record. To a host that has just gone on again each
 * write in hand seems to have hung: what came of it is only known at the next look.
 */
const recording = ({ journal, lookedAt }: HealthSeen, now: MonotonicMillis): JournalHealth => {
  const wasAway = lookedAt !== null && secondsBetween(lookedAt, now) > AWAY_SECONDS;
  return journal.kind === 'behind' && journal.seconds >= HUNG_WRITE_SECONDS && !wasAway
    ? {
        kind: 'not-recording',
        why: `the disk has not taken anything for ${Math.floor(journal.seconds / 60)} min`,
        sinceMonotonic: monotonicMillis(now - journal.seconds * 1000),
        dropped: 0,
      }
    : journal;
};

/** A slow disk is no word for a person: only that nothing is recorded is, and it changes nothing from tick to tick. */
const settled = (journal: JournalHealth): JournalHealth =>
  journal.kind === 'behind' ? { kind: 'well' } : journal;

const strengthOf = (readings: readonly NamedReading[]): number | null => {
  const found = readings.find(({ unit }) => unit === STRENGTH_UNIT);
  return found?.reading.quality === 'good' && typeof found.value === 'number' ? found.value : null;
};

export interface HealthSeen {
  /** When the host looked at itself before; null at its first look. */
  readonly lookedAt: MonotonicMillis | null;
  readonly journal: JournalHealth;
  readonly channels: readonly DeadChannel[];
  readonly starts: Pick<HostHealth, 'safeMode'> & { readonly starts: number };
  readonly boardClock: HostHealth['boardClock'];
  readonly line: HostHealth['line'];
  readonly chip: HostHealth['chip'];
  readonly readings: readonly NamedReading[];
}

/** What the host knows of itself, put together for the alarms. */
export const hostHealth = (seen: HealthSeen, now: MonotonicMillis): HostHealth => ({
  journal: settled(recording(seen, now)),
  channels: seen.channels,
  safeMode: seen.starts.safeMode,
  restarts: seen.starts.starts,
  boardClock: seen.boardClock ?? null,
  line: seen.line ?? null,
  chip: seen.chip ?? null,
  strengthMillisiemensPerCm: strengthOf(seen.readings),
});

const sameJournal = (one: JournalHealth, other: JournalHealth): boolean =>
  one.kind === 'not-recording' && other.kind === 'not-recording'
    ? one.why === other.why
    : one.kind === other.kind;

const namesOf = ({ channels }: HostHealth): string => channels.map(({ name }) => name).join(' ');
/** Drift is told by tenths of a per cent, spoilt messages and heat by whole ones, strength by hundredths: noise below is no news. */
const rounded = (value: number | null | undefined, digits: number): string => value?.toFixed(digits) ?? '';

/** Whether nothing has changed that an alarm or a message could tell. */
export const sameHealth = (one: HostHealth, other: HostHealth): boolean =>
  sameJournal(one.journal, other.journal) &&
  namesOf(one) === namesOf(other) &&
  one.safeMode === other.safeMode &&
  one.restarts === other.restarts &&
  rounded(one.boardClock?.percentFast, 1) === rounded(other.boardClock?.percentFast, 1) &&
  rounded(one.line?.percentSpoilt, 0) === rounded(other.line?.percentSpoilt, 0) &&
  rounded(one.chip?.celsius, 0) === rounded(other.chip?.celsius, 0) &&
  rounded(one.strengthMillisiemensPerCm, 2) === rounded(other.strengthMillisiemensPerCm, 2);
