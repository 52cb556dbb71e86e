import { alarmSpans } from '../alarm-log.ts';
import { rowsOf, type Breach, type Check } from '../record.ts';
import { disturbed, MINUTE, seeps } from '../stretches.ts';

/** Once nothing is broken any more: floods are whole again, and no high alarm is left, after so long. */
const SERVICE_HOURS = 8;
/** A tank that is filled by hand is filled in the morning. */
const BY_HAND_HOURS = 32;

/** I6: when the faults are over, service returns by itself within its limit. */
export const recovery: Check = (record) => {
  const { farm, clearMillis, endMillis } = record;
  const hours = farm.tank.topUp === 'by-hand' ? BY_HAND_HOURS : SERVICE_HOURS;
  const limitMillis = clearMillis + hours * 60 * MINUTE;
  if (limitMillis >= endMillis) return [];
  const breaches: Breach[] = [];
  const verdicts = rowsOf(record, 'verdict').filter(({ atMillis }) => atMillis > limitMillis);
  // While slowly draining channels still return water of one flood the sensor cannot prove the next.
  const seeping = alarmSpans(record).filter(
    ({ alarm, fromMillis }) => alarm === 'flow-sensor-stuck' && seeps(record, fromMillis),
  );
  for (const { atMillis, entry } of verdicts) {
    if (entry.verdict.kind === 'confirmed') continue;
    const blind = seeping.some(
      ({ fromMillis, untilMillis }) => fromMillis < atMillis && atMillis <= untilMillis,
    );
    if (entry.verdict.kind === 'unproven' && blind) continue;
    breaches.push({
      invariant: 'I6',
      atMillis,
      words: `flood ${entry.flood} was ${entry.verdict.kind} ${hours} h after the last fault`,
    });
  }
  const longestMinutes = Math.max(
    farm.bounds.restMinutesByDay.longest,
    farm.bounds.restMinutesByNight.longest,
  );
  const roomMinutes = (endMillis - limitMillis) / MINUTE;
  if (verdicts.length === 0 && roomMinutes > longestMinutes + 60) {
    breaches.push({
      invariant: 'I6',
      atMillis: endMillis,
      words: `no flood was judged from ${hours} h after the last fault on`,
    });
  }
  for (const { alarm, priority, untilMillis, returned } of alarmSpans(record)) {
    // The floor of the simulated shed never dries: what the sensor says of it stays true.
    if (
      alarm === 'water-on-floor' &&
      disturbed(record, ['leak'], { fromMillis: record.startMillis, untilMillis: endMillis })
    )
      continue;
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
