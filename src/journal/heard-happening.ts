import type { Happening } from './entry.ts';
import type { HeraldHeard } from '../delivery/heard.ts';

const MEANT = { acknowledge: 'acknowledge', asked: 'state', 'not-understood': 'something-else' } as const;

/** What the journal keeps of what the herald heard. */
export const heardHappening = (heard: HeraldHeard): Happening => {
  switch (heard.kind) {
    case 'delivered':
    case 'failed':
      return {
        kind: 'delivery',
        outcome: heard.kind,
        alarm: heard.call?.alarm ?? null,
        channel: heard.channel,
        form: heard.form,
        person: heard.person,
        why: heard.kind === 'failed' ? heard.why : null,
        attempt: heard.kind === 'failed' ? heard.attempt : null,
      };
    case 'acknowledge':
    case 'asked':
    case 'not-understood':
      return {
        kind: 'text-came',
        channel: heard.channel,
        who: heard.who,
        lastDigits: null,
        meant: MEANT[heard.kind],
      };
    case 'stranger':
      return {
        kind: 'text-came',
        channel: heard.channel,
        who: null,
        lastDigits: heard.lastDigits,
        meant: 'something-else',
      };
  }
};
