import { dayPlanOf, turnAt, turnsAtAnyTime, type Turn } from '../day-plan.ts';
import { deathsIn } from '../deaths.ts';
import type { Breach, Check, RunRecord, Stretch } from '../record.ts';
import { isUnplanned, restsWithEnds } from '../rests.ts';
import { MINUTE, stepAt } from '../stretches.ts';
import { partsAreMoved } from '../time-of-day.ts';

/** A look that comes up to 21 s late, a thermometer with its noise of a fifth of a degree, one per cent of a night's rest. */
const SLACK_MINUTES = 3;
/** A thermometer that is read every five minutes, every second word lost, and that follows the air in three. */
const AIR_KNOWN_MINUTES = 15;
/** The longest of the shortest-offs that are drawn, and a look. */
const BORN_MINUTES = 2;
/** Ways in which the thermometer says what is not so, and a longer rest may follow before that is seen, or without. */
const AIR_LIES = ['sensor-stuck', 'sensor-garbage', 'sensor-wrong', 'sensor-slow', 'sensor-delayed'];

const airLies = ({ broken }: RunRecord, span: Stretch): boolean =>
  broken.some(
    ({ name, channel, fromMillis, untilMillis }) =>
      channel === 'air-temperature' &&
      AIR_LIES.includes(name) &&
      fromMillis <= span.untilMillis &&
      span.fromMillis <= untilMillis,
  );

/**
 * The longest rest of all moments between a flood and the next: a turn spans both, and counts at the pace of each moment. The
 * flood before it may have been shorter than the plan's, as one is that was begun under a clock that nobody believed.
 */
const longestOf = (turns: readonly Turn[], floodedMinutes: number): number =>
  turns.reduce((most, { rest, flood }) => Math.max(most, rest + flood), 0) -
  turns.reduce((least, { flood }) => Math.min(least, flood), floodedMinutes);

/**
 * I2, its first word: each *due* flood. In rests that nothing unplanned touches none is longer than the plan's own rest for
 * that part of the day, moved by the temperature rule at the true air.
 */
export const plannedRests: Check = (record) => {
  const { farm, truth, startMillis, endMillis } = record;
  const plan = dayPlanOf(farm, { fromMillis: startMillis, untilMillis: endMillis });
  return restsWithEnds(record).flatMap((rest): readonly Breach[] => {
    const minutes = (rest.untilMillis - rest.fromMillis) / MINUTE;
    const flood = truth.runs.findLast(({ untilMillis }) => untilMillis <= rest.fromMillis);
    const turn = {
      fromMillis: (flood?.fromMillis ?? rest.fromMillis) - AIR_KNOWN_MINUTES * MINUTE,
      untilMillis: rest.untilMillis,
    };
    const turns: Turn[] = [];
    const moved = partsAreMoved(record, turn);
    for (let step = stepAt(record, turn.fromMillis); step <= stepAt(record, turn.untilMillis); step += 1) {
      const atMillis = Math.min(truth.atMillis[step] ?? Infinity, turn.untilMillis);
      const celsius = truth.airCelsius[step] ?? truth.airCelsius.at(-1) ?? NaN;
      turns.push(...(moved ? turnsAtAnyTime(farm, plan, celsius) : turnAt(farm, plan, atMillis, celsius)));
    }
    // Without power nobody floods; what fell due meanwhile comes once the motor has rested from whatever ran unseen.
    const born = deathsIn(record, rest).map(
      ({ untilMillis }) => (untilMillis - rest.fromMillis) / MINUTE + BORN_MINUTES,
    );
    const flooded = flood === undefined ? Infinity : (flood.untilMillis - flood.fromMillis) / MINUTE;
    const most = Math.max(longestOf(turns, flooded), ...born);
    if (minutes <= most + SLACK_MINUTES || isUnplanned(record, rest) || airLies(record, turn)) return [];
    return [
      {
        invariant: 'I2',
        atMillis: rest.untilMillis,
        words: `no flood came for ${minutes.toFixed(0)} min, the plan has one after ${most.toFixed(0)}`,
      },
    ];
  });
};
