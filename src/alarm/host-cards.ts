import type { HostHealth, JournalHealth } from '../ports/host-health.ts';
import type { Now } from '../time/instant.ts';
import type { AlarmKind, Card } from './card.ts';
import { sinceText } from './words.ts';

/** A disk that is slow for a moment is no alarm; entries wait in memory. */
const BEHIND_SECONDS = 60;
/** Why a channel or a disk fails comes from an operating system, and a text message must stay short. */
const WHY_LETTERS_MAX = 60;
/** The board's clock against the host's (faults.md, row 28): a warning from here on, and an alarm. */
export const DRIFT_PERCENT = { warning: 2, alarm: 5 } as const;

/** What only the host can tell of; until it has, nobody knows whether these stand. */
export const HOST_KINDS = [
  'channel-dead',
  'not-recording',
  'safe-mode',
  'clock-drift',
] as const satisfies readonly AlarmKind[];
export type HostKind = (typeof HOST_KINDS)[number];

const short = (why: string): string =>
  why.length <= WHY_LETTERS_MAX ? why : `${why.slice(0, WHY_LETTERS_MAX - 3)}...`;

const channelCard = ({ channels }: HostHealth, now: Now, timeZone: string): Card | null => {
  const [first, ...others] = channels;
  if (first === undefined) return null;
  const more = others.length === 0 ? '' : ` So are: ${short(others.map(({ name }) => name).join(', '))}.`;
  return {
    kind: 'channel-dead',
    priority: 'medium',
    cause: `Nobody can be reached by ${first.name} ${sinceText(first.since, now, timeZone)}: ${short(first.why)}.${more}`,
    consequence: 'An alarm may reach nobody.',
    firstAction: 'Look at it, and keep an eye on the shed meanwhile.',
  };
};

const recordingWords = (journal: JournalHealth, now: Now, timeZone: string): string | null => {
  switch (journal.kind) {
    case 'well':
      return null;
    case 'behind':
      return journal.seconds < BEHIND_SECONDS
        ? null
        : `The disk is slow: ${journal.waiting} entries have waited for up to ${Math.floor(journal.seconds / 60)} min.`;
    case 'not-recording': {
      const lost = journal.dropped === 0 ? '' : ` ${journal.dropped} entries are lost.`;
      return `Nothing has been recorded ${sinceText(journal.sinceMonotonic, now, timeZone)}: ${short(journal.why)}.${lost}`;
    }
  }
};

const recordingCard = ({ journal }: HostHealth, now: Now, timeZone: string): Card | null => {
  const cause = recordingWords(journal, now, timeZone);
  return cause === null
    ? null
    : {
        kind: 'not-recording',
        priority: journal.kind === 'not-recording' ? 'medium' : 'low',
        cause,
        consequence: 'Floods and alarms go on, but a restart may forget them.',
        firstAction: 'Look whether the disk of the host is full or worn out.',
      };
};

const safeModeCard = ({ safeMode, restarts }: HostHealth): Card | null =>
  safeMode === null
    ? null
    : {
        kind: 'safe-mode',
        priority: 'medium',
        cause: `The host runs with as little as it can, after ${restarts} starts: ${short(safeMode)}.`,
        consequence: 'Floods go on; page and reports may be missing.',
        firstAction: 'Look at what was changed last, undo it, then start the host anew.',
      };

const driftCard = ({ boardClock }: HostHealth, now: Now, timeZone: string): Card | null => {
  if (boardClock === undefined || boardClock === null) return null;
  const percent = Math.abs(boardClock.percentFast);
  // Written so that a drift that is no number counts as none: it would say nothing.
  if (!(percent > DRIFT_PERCENT.warning)) return null;
  const way = boardClock.percentFast > 0 ? 'faster' : 'slower';
  return {
    kind: 'clock-drift',
    priority: percent > DRIFT_PERCENT.alarm ? 'medium' : 'low',
    cause: `The clock of the board has run ${percent.toFixed(0)} % ${way} than the host's ${sinceText(boardClock.since, now, timeZone)}.`,
    consequence: 'Floods that the board gives by itself come at the wrong times.',
    firstAction: 'Replace the board when you can; the host keeps the time meanwhile.',
  };
};

/** Alarms about the host itself, as it tells of itself. */
export const hostCards = (health: HostHealth, now: Now, timeZone: string): readonly Card[] =>
  [
    channelCard(health, now, timeZone),
    recordingCard(health, now, timeZone),
    safeModeCard(health),
    driftCard(health, now, timeZone),
  ].filter((card) => card !== null);
