import { deathsIn, deathsUntimed } from '../deaths.ts';
import { rowsOf, type Breach, type Check } from '../record.ts';
import { isUnplanned, restsBetween } from '../rests.ts';
import { disturbed, HOST_HINDERED, litresInto, MINUTE, RELAY_BROKEN } from '../stretches.ts';

const DAY_MILLIS = 24 * 60 * MINUTE;
/** Hours that are by day wherever the campaign grows. */
const BY_DAY = { from: 9, until: 18 } as const;
const SLACK_MINUTES = 2;
/** The longest of the shortest-offs that are drawn, and a look. */
const BORN_MINUTES = 2;

/** I9: whatever the wall clock does, no rest is longer than the longest and no flood comes inside the shortest. */
export const timeKept: Check = (record) => {
  const { farm, startMillis, truth } = record;
  const { restMinutesByDay, restMinutesByNight } = farm.bounds;
  const hourOf = (at: number): number => ((at - startMillis) % DAY_MILLIS) / (60 * MINUTE);
  const breaches: Breach[] = [];
  for (const rest of restsBetween(record)) {
    const { fromMillis, untilMillis } = rest;
    const minutes = (untilMillis - fromMillis) / MINUTE;
    const byDay =
      hourOf(fromMillis) >= BY_DAY.from &&
      hourOf(untilMillis) <= BY_DAY.until &&
      hourOf(fromMillis) <= hourOf(untilMillis);
    const longest = byDay
      ? restMinutesByDay.longest
      : Math.max(restMinutesByDay.longest, restMinutesByNight.longest);
    // Without power nobody floods; what fell due meanwhile comes once the motor has rested from whatever ran unseen.
    const born = deathsIn(record, rest).map((death) => (death.untilMillis - fromMillis) / MINUTE);
    const most = Math.max(longest, ...born.map((bornMinutes) => bornMinutes + BORN_MINUTES));
    if (minutes > most + SLACK_MINUTES && !isUnplanned(record, rest)) {
      breaches.push({
        invariant: 'I9',
        atMillis: untilMillis,
        words: `a rest of ${minutes.toFixed(0)} min, ${most.toFixed(0)} are the longest`,
      });
    }
  }
  const shortest = Math.min(restMinutesByDay.shortest, restMinutesByNight.shortest);
  for (const { atMillis } of rowsOf(record, 'flood-started')) {
    const before = truth.runs.findLast(({ untilMillis }) => untilMillis <= atMillis);
    if (before === undefined) continue;
    const rest = { fromMillis: before.untilMillis, untilMillis: atMillis };
    const minutes = (rest.untilMillis - rest.fromMillis) / MINUTE;
    const long = before.untilMillis - before.fromMillis >= 5 * MINUTE;
    if (!long || minutes >= shortest - 0.1 || litresInto(record, before) < 20) continue;
    const excused = { fromMillis: before.fromMillis, untilMillis: atMillis };
    if (disturbed(record, ['flood-now', ...HOST_HINDERED, ...RELAY_BROKEN], excused, 10, 0.1)) continue;
    if (disturbed(record, ['mains-lost'], excused, 60)) continue;
    // What the pump gave after its host had ended nobody has seen; and where no clock tells how long ago it was, wetter is safer.
    if (deathsIn(record, before).length > 0) continue;
    if (deathsUntimed(record, deathsIn(record, rest))) continue;
    breaches.push({
      invariant: 'I9',
      atMillis,
      words: `a flood ${minutes.toFixed(1)} min after the last, ${shortest} are the shortest rest`,
    });
  }
  return breaches;
};
