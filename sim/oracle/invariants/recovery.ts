import { alarmSpans } from '../alarm-log.ts';
import { rowsOf, type Breach, type Check, type RunRecord } from '../record.ts';
import { seepingTold } from '../seeping.ts';
import { MINUTE } from '../stretches.ts';

/** Once nothing is broken any more: floods are whole again, and no high alarm is left, after so long: two of the longest rests by night, and a flood each. */
const SERVICE_HOURS = 8;
/** By day the longest rest is little more than an hour: two of them, and a flood between. */
const BY_DAY_HOURS = 3;
/** Hours that are by day wherever the campaign grows. */
const BY_DAY = { from: 8, until: 20 } as const;
/** A tank that truly ran low and is filled by hand is filled in the morning, at most a day later. */
const BY_HAND_HOURS = 32;
const TANK_LOW_LITRES = 30;
const HOUR = 60 * MINUTE;

/** Whether the tank was truly low at any time; before the first fault none of the campaign's is. */
const wasLow = ({ farm, truth }: RunRecord): boolean =>
  truth.tankLitres.some((litres) => litres < farm.tank.dryLitres + TANK_LOW_LITRES);

/** How long service may take to return after the last fault. */
const limitHours = (record: RunRecord): number => {
  const { farm, startMillis, clearMillis } = record;
  if (farm.tank.topUp === 'by-hand' && wasLow(record)) return BY_HAND_HOURS;
  const clearHour = ((clearMillis - startMillis) % (24 * HOUR)) / HOUR;
  return clearHour >= BY_DAY.from && clearHour + BY_DAY_HOURS <= BY_DAY.until ? BY_DAY_HOURS : SERVICE_HOURS;
};

const limitOf = (record: RunRecord): number => record.clearMillis + limitHours(record) * HOUR;

const verdictsAfter = (record: RunRecord, limitMillis: number): ReturnType<typeof rowsOf<'verdict'>> =>
  rowsOf(record, 'verdict').filter(({ atMillis }) => atMillis > limitMillis);

/** Whether there is so much of the run left after the limit that a flood must have been judged in it. */
const hasRoom = (record: RunRecord, limitMillis: number): boolean => {
  const { restMinutesByDay, restMinutesByNight } = record.farm.bounds;
  const longestMinutes = Math.max(restMinutesByDay.longest, restMinutesByNight.longest);
  return (record.endMillis - limitMillis) / MINUTE > longestMinutes + 60;
};

/** Whether a run goes on for long enough after its last fault that a flood after it could be judged, or was missing. */
export const isRecoveryJudged = (record: RunRecord): boolean => {
  const limitMillis = limitOf(record);
  return (
    limitMillis < record.endMillis &&
    (verdictsAfter(record, limitMillis).length > 0 || hasRoom(record, limitMillis))
  );
};

/** I6: when the faults are over, service returns by itself within its limit. */
export const recovery: Check = (record) => {
  const { endMillis } = record;
  const hours = limitHours(record);
  const limitMillis = limitOf(record);
  if (limitMillis >= endMillis) return [];
  const breaches: Breach[] = [];
  const verdicts = verdictsAfter(record, limitMillis);
  // While slowly draining channels still return water of one flood the sensor cannot prove the next.
  const seeping = alarmSpans(record).filter(
    ({ alarm, fromMillis }) => alarm === 'flow-sensor-stuck' && seepingTold(record, fromMillis),
  );
  for (const { atMillis, entry } of verdicts) {
    if (entry.verdict.kind === 'confirmed') continue;
    const blind = seeping.some(
      ({ fromMillis, untilMillis }) => fromMillis <= atMillis && atMillis <= untilMillis,
    );
    if (entry.verdict.kind === 'unproven' && blind) continue;
    breaches.push({
      invariant: 'I6',
      atMillis,
      words: `flood ${entry.flood} was ${entry.verdict.kind} ${hours} h after the last fault`,
    });
  }
  if (verdicts.length === 0 && hasRoom(record, limitMillis)) {
    breaches.push({
      invariant: 'I6',
      atMillis: endMillis,
      words: `no flood was judged from ${hours} h after the last fault on`,
    });
  }
  for (const { alarm, priority, untilMillis, returned } of alarmSpans(record)) {
    if (priority === 'high' && !returned && untilMillis >= endMillis) {
      breaches.push({
        invariant: 'I6',
        atMillis: endMillis,
        words: `alarm "${alarm}" stands at the end, with nothing broken`,
      });
    }
  }
  return breaches;
};
