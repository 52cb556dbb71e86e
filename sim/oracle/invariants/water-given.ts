import type { InjectorName } from '../../faults/injectors.ts';
import { deathsIn } from '../deaths.ts';
import { lying, OF_A_FLOOD } from '../lies.ts';
import { rowsOf, type Check } from '../record.ts';
import { disturbed, fullFlow, HOST_HINDERED, litresBack, MINUTE, RELAY_BROKEN } from '../stretches.ts';

/**
 * Below this share of the full flow no farm may call a flood a whole one: weak is what gives less than 70 % of the usual, and
 * usual is never less than three quarters of the best. The rest is room for a meter that is wrong by a tenth, and for a return
 * that has not quite reached what runs in.
 */
const WEAK_SHARE_MOST = 0.4;
/** What comes back in shorter floods says little before the farm has taught how slow its channels are. */
const TELLING_MINUTES = 16;
/** The last minutes of a flood tell, and they must have been its own. */
const LAST_MINUTES = 5;
const QUIET_MINUTES = 15;
const UNSEEN: readonly InjectorName[] = [...HOST_HINDERED, ...RELAY_BROKEN, 'late-ticks', 'samples-lost'];

/** I2: a flood that is called confirmed has brought back more than a share of its water that every meter can tell. */
export const waterGiven: Check = (record) => {
  if (record.farm.evidence.returnFlow !== 'meter') return [];
  const begun = new Map(rowsOf(record, 'flood-started').map((row) => [row.entry.flood, row]));
  return rowsOf(record, 'verdict').flatMap(({ atMillis, entry: { flood, verdict } }) => {
    const start = begun.get(flood);
    if (verdict.kind !== 'confirmed' || start === undefined || start.entry.minutes < TELLING_MINUTES)
      return [];
    const whole = { fromMillis: start.atMillis, untilMillis: atMillis };
    const run = record.truth.runs.findLast(({ fromMillis }) => fromMillis < atMillis);
    if (
      run === undefined ||
      run.untilMillis - run.fromMillis < TELLING_MINUTES * MINUTE ||
      disturbed(record, UNSEEN, whole, QUIET_MINUTES) ||
      lying(record, OF_A_FLOOD, whole, QUIET_MINUTES) ||
      deathsIn(record, whole).length > 0
    )
      return [];
    const untilMillis = Math.min(run.untilMillis, atMillis);
    const last = { fromMillis: untilMillis - LAST_MINUTES * MINUTE, untilMillis };
    const flow = litresBack(record, last) / LAST_MINUTES;
    if (flow >= WEAK_SHARE_MOST * fullFlow(record)) return [];
    const words = `flood ${flood} was confirmed though ${flow.toFixed(1)} of ${fullFlow(record).toFixed(0)} L/min came back`;
    return [{ invariant: 'I2' as const, atMillis, words }];
  });
};
