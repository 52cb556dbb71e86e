import type { Dialogue } from '../devices/keeper/dialogue.ts';
import type { KeeperStatus } from '../devices/keeper/status.ts';
import { afterSeconds, secondsBetween } from '../../src/time/instant.ts';
import { realClock } from '../real-clock.ts';
import type { Console } from './console.ts';
import type { Finding } from './keeper-findings.ts';
import { statusOf } from './keeper-dialogue.ts';

type Contact = keyof KeeperStatus['seen'];

/** What each contact says when it is so, and when not. */
const CONTACTS: Readonly<Record<Contact, readonly [name: string, so: string, not: string]>> = {
  readBackClosed: ['relay read-back', 'closed', 'open'],
  waterBack: ['return flow', 'water', 'no water'],
  pumpCurrent: ['pump current', 'draws', 'draws nothing'],
  floatLow: ['tank float', 'low', 'not low'],
  leak: ['leak sensor', 'wet', 'dry'],
  overflow: ['overflow float', 'wet', 'dry'],
  mainsLost: ['mains', 'lost', 'there'],
};

const ALL: readonly Contact[] = [
  'readBackClosed',
  'waterBack',
  'pumpCurrent',
  'floatLow',
  'leak',
  'overflow',
  'mainsLost',
];

/** What is fitted, in words; empty where nothing is. */
export const contactLines = (seen: KeeperStatus['seen']): readonly (readonly [Contact, string])[] =>
  ALL.flatMap((contact): readonly (readonly [Contact, string])[] => {
    const state = seen[contact];
    if (state === null) return [];
    const [name, so, not] = CONTACTS[contact];
    return [[contact, `${name}: ${state ? so : not}`]];
  });

/**
 * Shows every change of every fitted contact for some time, while a person moves them. A contact that was not seen both
 * ways has not been tested.
 */
export const watchedContacts = async (
  dialogue: Dialogue,
  seconds: number,
  stop: AbortSignal,
  console: Console,
): Promise<readonly Finding[]> => {
  const clock = realClock(stop);
  const begun = clock.now().monotonic;
  const last = new Map<Contact, string>();
  const moved = new Set<Contact>();
  for (;;) {
    const elapsed = secondsBetween(begun, clock.now().monotonic);
    for (const [contact, line] of contactLines((await statusOf(dialogue)).seen)) {
      const before = last.get(contact);
      if (before === line) continue;
      if (before !== undefined) moved.add(contact);
      last.set(contact, line);
      console.talk(`  ${String(Math.round(elapsed)).padStart(3)} s  ${line}`);
    }
    if (elapsed >= seconds || stop.aborted) break;
    await clock.until(afterSeconds(clock.now().monotonic, 1));
  }
  if (last.size === 0) console.talk('  no contact is fitted');
  return [...last].map(([contact, line]): Finding => ({
    name: 'contacts',
    verdict: moved.has(contact) ? 'well' : 'not-tried',
    says: moved.has(contact)
      ? `${CONTACTS[contact][0]}: seen both ways.`
      : `${line} all the time: not tested.`,
  }));
};
