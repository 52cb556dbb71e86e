import { alarmSpans } from '../alarm-log.ts';
import { deathsIn } from '../deaths.ts';
import { tookOverAt } from '../kept-told.ts';
import { rowsOf, type Breach, type Check, type RunRecord, type Stretch } from '../record.ts';
import { isLostBeforeDisk } from '../lost-records.ts';
import { OF_A_FLOOD, lying, RETURN } from '../lies.ts';
import { disturbed, fullFlow, lastWater, litresInto, MINUTE } from '../stretches.ts';

/** Return lag before anything is learned, and two tries of three minutes after the shortest off: the bound of a deadline. */
const LAG_MINUTES_MOST = 8;
const TRIES = { count: 2, minutes: 3 } as const;
const ALARM_SECONDS_MOST = 60;
/** With its first look a host that begins anew has judged what was left to it. */
const BORN_MILLIS = 2000;
/** A return that stops is looked at every half minute, and a meter takes its time to say so. */
const SEEN_GONE_MINUTES = 2;
/** Less than this share of a flood that came to the benches is none. */
const WATER_SHARE_LEAST = 0.05;

/** When the line to the board came back last in a stretch; long ago where it was never gone. */
const lineBackAt = ({ broken }: RunRecord, { fromMillis, untilMillis }: Stretch): number =>
  broken
    .filter(({ name }) => name === 'link-lost')
    .map((fault) => fault.untilMillis)
    .filter((backMillis) => fromMillis <= backMillis && backMillis <= untilMillis)
    .reduce((one, other) => Math.max(one, other), -Infinity);

/**
 * When the run of the pump began of a flood that a host takes over from its board, as it has given its water before; never
 * longer ago than a pump may run. One that the host asks for itself begins as it is written.
 */
const runBegan = (
  { keeps, truth, farm }: RunRecord,
  atMillis: number,
  askedMillis: ReadonlySet<number>,
): number => {
  if (keeps !== true || askedMillis.has(atMillis)) return atMillis;
  const run = truth.runs.find(
    ({ fromMillis, untilMillis }) => fromMillis <= atMillis && atMillis < untilMillis,
  );
  return Math.max(run?.fromMillis ?? atMillis, atMillis - farm.pump.longestOnMinutes * MINUTE);
};

/** I2: every flood that was begun gets exactly one verdict, a missed one its alarm, and no dry one is called confirmed. */
export const noSilentMiss: Check = (record) => {
  const { farm, endMillis } = record;
  const deadlineMinutes =
    LAG_MINUTES_MOST + TRIES.count * (TRIES.minutes + farm.pump.shortestOffSeconds / 60);
  const verdicts = rowsOf(record, 'verdict');
  const askedOn = rowsOf(record, 'pump-asked').filter(({ entry }) => entry.pump === 'on');
  const askedMillis = new Set(askedOn.map(({ atMillis }) => atMillis));
  const missedSpans = alarmSpans(record).filter(({ alarm }) => alarm === 'missed-flood');
  const breaches: Breach[] = [];
  const say = (atMillis: number, words: string): void => {
    breaches.push({ invariant: 'I2', atMillis, words });
  };

  for (const { atMillis, entry } of rowsOf(record, 'flood-started')) {
    const judged = verdicts.filter((row) => row.entry.flood === entry.flood);
    const dueMillis = atMillis + (deadlineMinutes + 2 * entry.minutes) * MINUTE;
    // A flood in which the host ended is judged when the next one begins.
    const deaths = deathsIn(record, { fromMillis: atMillis, untilMillis: dueMillis });
    const byMillis = Math.max(dueMillis, ...deaths.map(({ untilMillis }) => untilMillis + BORN_MILLIS));
    const span = { fromMillis: atMillis, untilMillis: byMillis };
    const watched =
      !disturbed(record, ['host-frozen', 'late-ticks'], span) &&
      byMillis < endMillis &&
      !isLostBeforeDisk(record, span);
    if (judged.length > 1) say(atMillis, `flood ${entry.flood} got ${judged.length} verdicts`);
    const [first] = judged;
    if (first === undefined) {
      if (watched) say(byMillis, `flood ${entry.flood} got no verdict`);
      continue;
    }
    if (watched && first.atMillis > byMillis)
      say(first.atMillis, `the verdict of flood ${entry.flood} came late`);
    const litres = litresInto(record, {
      fromMillis: runBegan(record, atMillis, askedMillis),
      untilMillis: first.atMillis,
    });
    const wanted = entry.minutes * fullFlow(record);
    const lies = lying(record, RETURN, { fromMillis: atMillis, untilMillis: first.atMillis }, 60);
    if (first.entry.verdict.kind === 'confirmed' && litres < WATER_SHARE_LEAST * wanted && !lies) {
      say(
        first.atMillis,
        `flood ${entry.flood} was confirmed though ${litres.toFixed(0)} of ${wanted.toFixed(0)} L came`,
      );
    }
  }
  for (const { atMillis, entry } of verdicts) {
    if (entry.verdict.kind !== 'missed') continue;
    const { clue } = entry.verdict;
    // Of one whose water stopped half way nothing was missing until then.
    const missingSince = clue.stoppedAt ?? clue.startedAt;
    const lateMinutes = (clue.deadline - missingSince) / MINUTE - deadlineMinutes;
    if (lateMinutes > 0.01) say(atMillis, `a deadline ${lateMinutes.toFixed(1)} min beyond the bound`);
    const deadlineMillis = atMillis + (clue.deadline - entry.at);
    const span = { fromMillis: atMillis, untilMillis: deadlineMillis + ALARM_SECONDS_MOST * 1000 };
    if (disturbed(record, ['host-frozen', 'late-ticks'], span, deadlineMinutes)) continue;
    if (deathsIn(record, span).length > 0) continue;
    const told = missedSpans.some(
      ({ fromMillis, untilMillis }) =>
        fromMillis <= Math.max(span.untilMillis, atMillis) && untilMillis >= atMillis,
    );
    if (!told) say(atMillis, `flood ${entry.flood} was missed and no alarm stood 60 s after its deadline`);
    // While its sensor says nothing, or lies, or its board wavers, or water runs from a pump that nobody asked, nobody can find out: it is found when the sensor speaks again.
    const flood = { fromMillis: atMillis - (entry.at - clue.startedAt), untilMillis: atMillis };
    if (
      lying(record, OF_A_FLOOD, flood, 15) ||
      disturbed(record, ['relay-welded', 'samples-lost', 'link-flapping'], flood, 15)
    )
      continue;
    if (deathsIn(record, flood).length > 0) continue;
    // One that the board has begun is the host's to judge from when it is told of it; one that goes on at the board while the
    // line is gone, from when it hears of the return again.
    const hadAt = tookOverAt(record, entry.flood, clue.startedAt) ?? -Infinity;
    const heardAt = entry.at - (atMillis - lineBackAt(record, flood));
    const dueAt = Math.max(clue.deadline, hadAt + deadlineMinutes * MINUTE, heardAt + BORN_MILLIS);
    if (entry.at - dueAt > ALARM_SECONDS_MOST * 1000)
      say(atMillis, `flood ${entry.flood} was found missed late`);
    if (clue.stoppedAt === null) continue;
    const stoppedMillis = atMillis - (entry.at - clue.stoppedAt);
    if (
      lastWater(record, { ...flood, untilMillis: stoppedMillis }) <
      stoppedMillis - SEEN_GONE_MINUTES * MINUTE
    )
      say(atMillis, `flood ${entry.flood} had no water to stop when it is said to have stopped`);
  }
  return breaches;
};
