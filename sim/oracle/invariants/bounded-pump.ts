import type { Breach, Check } from '../record.ts';
import { disturbed, MINUTE, RELAY_BROKEN } from '../stretches.ts';

/** The steps of the plant end with the command to within a second. */
const SLACK_SECONDS = 1.5;

/** I3: the board runs the pump no longer than longest-on, and rests it no shorter than shortest-off. */
export const boundedPump: Check = (record) => {
  const { runs } = record.truth;
  const { longestOnMinutes, shortestOffSeconds } = record.farm.pump;
  return runs.flatMap((run, place): readonly Breach[] => {
    const found: Breach[] = [];
    if (disturbed(record, RELAY_BROKEN, run, 1, 1)) return [];
    const minutes = (run.untilMillis - run.fromMillis) / MINUTE;
    if (minutes > longestOnMinutes + SLACK_SECONDS / 60) {
      found.push({
        invariant: 'I3',
        atMillis: run.untilMillis,
        words: `the pump ran ${minutes.toFixed(1)} min in one piece`,
      });
    }
    const next = runs[place + 1];
    if (next === undefined || disturbed(record, RELAY_BROKEN, next, 1, 1)) return found;
    const seconds = (next.fromMillis - run.untilMillis) / 1000;
    if (seconds < shortestOffSeconds - SLACK_SECONDS) {
      found.push({
        invariant: 'I3',
        atMillis: next.fromMillis,
        words: `the motor rested only ${seconds.toFixed(0)} s`,
      });
    }
    return found;
  });
};
