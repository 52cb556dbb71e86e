import type { Unrecorded } from '../facts.ts';
import { reasonText, type Reason } from '../reason.ts';
import { channelName } from './channel-names.ts';
import { shortened, type HostTexts } from './language.ts';

const others = (names: readonly string[]): string =>
  names.length === 0 ? '' : ` So are: ${shortened(names.map((name) => channelName(name, 'en')).join(', '))}.`;
const lostWords = (lost: number): string => (lost === 0 ? '' : ` ${lost} entries are lost.`);

/** Alarms about the host itself. */
export const englishHost: HostTexts = (since, style) => {
  const why = (reason: Reason): string => shortened(reasonText(reason, style));
  const unrecorded = (journal: Unrecorded): string =>
    journal.kind === 'behind'
      ? `The disk is slow: ${journal.entries} entries have waited for up to ${journal.minutes} min.`
      : `Nothing has been recorded ${since(journal.since)}: ${why(journal.why)}.${lostWords(journal.lost)}`;
  return {
    cards: {
      'channel-dead': (facts) => ({
        cause: `Nobody can be reached by ${channelName(facts.name, 'en')} ${since(facts.since)}: ${why(facts.why)}.${others(facts.others)}`,
        consequence: 'An alarm may reach nobody.',
        firstAction: 'Look at it, and keep an eye on the shed meanwhile.',
      }),
      'not-recording': ({ journal }) => ({
        cause: unrecorded(journal),
        consequence: 'Floods and alarms go on, but a restart may forget them.',
        firstAction: 'Look whether the disk of the host is full or worn out.',
      }),
      'safe-mode': (facts) => ({
        cause: `The host runs with as little as it can, after ${facts.restarts} starts: ${why(facts.why)}.`,
        consequence: 'Floods and calls go on; if it ends again, nobody is called until it runs.',
        firstAction: 'Look at what was changed last, undo it, then start the host anew.',
      }),
      'past-unread': (facts) => ({
        cause:
          facts.why === 'late'
            ? 'The book with what was known before this start has not opened yet.'
            : 'What was known before this start cannot be read.',
        consequence: `The pump is held for ${facts.heldMinutes} min and no longer, for nobody knows whether a person holds it; alarms from before may be forgotten.`,
        firstAction:
          'Hands out of the water and dry; then pull the plug of the pump, or hold it again. Then look at the disk of the host.',
      }),
      'clock-drift': (facts) => ({
        cause: `The clock of the board has run ${facts.percent.toFixed(0)} % ${facts.way} than the host's ${since(facts.since)}.`,
        consequence: 'Floods that the board gives by itself come at the wrong times.',
        firstAction: 'Replace the board when you can; the host keeps the time meanwhile.',
      }),
    },
    briefs: {
      'channel-dead': (facts) => ({
        what: `Nobody reached by ${channelName(facts.name, 'en')} ${since(facts.since)}, an alarm may reach nobody`,
        act: 'Look at it, and keep an eye on the shed',
      }),
      'not-recording': ({ journal }) => ({
        what:
          journal.kind === 'behind'
            ? `Disk slow, ${journal.entries} entries wait`
            : `Nothing recorded ${since(journal.since)}`,
        act: 'See if the disk of the host is full or worn out',
      }),
      'safe-mode': (facts) => ({
        what: `Host runs with as little as it can: ${why(facts.why)}`,
        act: 'Undo the last change, then start it anew',
      }),
      'past-unread': (facts) => ({
        what:
          facts.why === 'late' ? 'Book not open yet: no hold known' : 'Holds and alarms from before are lost',
        act: `Hands out of the water, dry, then pull the plug. Pump waits ${facts.heldMinutes} min only`,
      }),
      'clock-drift': (facts) => ({
        what: `Clock of the board runs ${facts.percent.toFixed(0)} % ${facts.way} than the host's`,
        act: 'Replace the board when you can',
      }),
    },
  };
};
