import type { Farm } from '../farm/farm.ts';
import { PAST_UNREAD_MINUTES } from '../command/orders.ts';
import type { HostHealth, JournalHealth } from '../ports/host-health.ts';
import type { MonotonicMillis, Now } from '../time/instant.ts';
import { cardOf, type Card, type Priority } from './card.ts';
import { momentOf, type FactsOf, type HostKind, type Moment, type Unrecorded } from './facts.ts';
import { languageOf } from './language/languages.ts';
import { reasonOf } from './reason.ts';

/** A disk that is slow for a moment is no alarm; entries wait in memory. */
const BEHIND_SECONDS = 60;
/** The board's clock against the host's (faults.md, row 28): a warning from here on, and an alarm. */
export const DRIFT_PERCENT = { warning: 2, alarm: 5 } as const;

/** What only the host can tell of; until it has, nobody knows whether these stand. */
export const HOST_KINDS = [
  'channel-dead',
  'not-recording',
  'safe-mode',
  'past-unread',
  'clock-drift',
  'line-bad',
  'host-hot',
  'host-large',
  'host-battery',
] as const satisfies readonly HostKind[];

/** What every one takes from the moment. */
interface Told {
  readonly farm: string;
  readonly since: (moment: MonotonicMillis) => Moment;
}
interface Standing {
  readonly facts: FactsOf<HostKind>;
  readonly priority: Priority;
}

const channelDead = ({ channels }: HostHealth, { farm, since }: Told): Standing | null => {
  const [first, ...others] = channels;
  if (first === undefined) return null;
  const facts = {
    kind: 'channel-dead' as const,
    farm,
    name: first.name,
    since: since(first.since),
    why: reasonOf(first.why),
    others: others.map(({ name }) => name),
  };
  return { facts, priority: 'medium' };
};

const unrecorded = (journal: JournalHealth, { since }: Told): Unrecorded | null => {
  switch (journal.kind) {
    case 'well':
      return null;
    case 'behind':
      return journal.seconds < BEHIND_SECONDS
        ? null
        : { kind: 'behind', entries: journal.waiting, minutes: Math.floor(journal.seconds / 60) };
    case 'not-recording':
      return {
        kind: 'stopped',
        since: since(journal.sinceMonotonic),
        why: reasonOf(journal.why),
        lost: journal.dropped,
      };
  }
};

const notRecording = ({ journal }: HostHealth, told: Told): Standing | null => {
  const seen = unrecorded(journal, told);
  if (seen === null) return null;
  return {
    facts: { kind: 'not-recording', farm: told.farm, journal: seen },
    priority: seen.kind === 'stopped' ? 'medium' : 'low',
  };
};

const safeMode = ({ safeMode: why, restarts }: HostHealth, { farm }: Told): Standing | null =>
  why === null
    ? null
    : { facts: { kind: 'safe-mode', farm, why: reasonOf(why), restarts }, priority: 'medium' };

/** Hands may be in the water, and the pump may start. */
const pastUnread = ({ pastUnread: unread }: HostHealth, { farm }: Told): Standing | null =>
  unread === undefined || unread === null
    ? null
    : {
        facts: { kind: 'past-unread', farm, why: unread.why, heldMinutes: PAST_UNREAD_MINUTES },
        priority: 'high',
      };

const clockDrift = ({ boardClock }: HostHealth, { farm, since }: Told): Standing | null => {
  if (boardClock === undefined || boardClock === null) return null;
  const percent = Math.abs(boardClock.percentFast);
  // Written so that a drift that is no number counts as none: it would say nothing.
  if (!(percent > DRIFT_PERCENT.warning)) return null;
  const way = boardClock.percentFast > 0 ? 'faster' : 'slower';
  return {
    facts: { kind: 'clock-drift', farm, percent, way, since: since(boardClock.since) },
    priority: percent > DRIFT_PERCENT.alarm ? 'medium' : 'low',
  };
};

const lineBad = ({ line }: HostHealth, { farm, since }: Told): Standing | null => {
  if (line === undefined || line === null) return null;
  const oneIn = Math.max(1, Math.round(100 / line.percentSpoilt));
  return { facts: { kind: 'line-bad', farm, oneIn, since: since(line.since) }, priority: 'low' };
};

const hostHot = ({ chip }: HostHealth, { farm, since }: Told): Standing | null =>
  chip === undefined || chip === null
    ? null
    : {
        facts: { kind: 'host-hot', farm, celsius: chip.celsius, since: since(chip.since) },
        priority: 'low',
      };

const hostLarge = ({ memory }: HostHealth, { farm, since }: Told): Standing | null => {
  if (memory === undefined || memory === null) return null;
  const { megabytes, renewed } = memory;
  return {
    facts: { kind: 'host-large', farm, megabytes, since: since(memory.since), renewed },
    priority: 'low',
  };
};

const hostBattery = ({ battery }: HostHealth, { farm, since }: Told): Standing | null => {
  if (battery === undefined || battery === null) return null;
  const { percent, volts, level } = battery;
  return {
    facts: { kind: 'host-battery', farm, percent, volts, since: since(battery.since) },
    priority: level === 'very-low' ? 'high' : 'medium',
  };
};

/** Alarms about the host itself, as it tells of itself, in the language of the farm. */
export const hostCards = (farm: Farm, health: HostHealth, now: Now): readonly Card[] => {
  const told: Told = {
    farm: farm.farm,
    since: (moment) => momentOf(moment, now, farm.place.timeZone),
  };
  return [
    channelDead,
    notRecording,
    safeMode,
    pastUnread,
    clockDrift,
    lineBad,
    hostHot,
    hostLarge,
    hostBattery,
  ]
    .map((standing) => standing(health, told))
    .filter((standing) => standing !== null)
    .map(({ facts, priority }) => cardOf(facts, priority, languageOf(farm)));
};
