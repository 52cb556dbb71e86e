import type { InjectorName } from '../../faults/injectors.ts';
import { dayPlanOf, longestPlannedRest, turnsAtAnyTime, type DayPlan } from '../day-plan.ts';
import { AIR, lying, RETURN } from '../lies.ts';
import type { Breach, Check, RunRecord, Stretch } from '../record.ts';
import { isUnplanned } from '../rests.ts';
import {
  CLOCKS_ASTRAY,
  disturbed,
  litresInto,
  MINUTE,
  NO_WATER,
  RELAY_BROKEN,
  stepAt,
} from '../stretches.ts';

/** After so long without a word the board has the pump, and a reset is over in less. */
const LEASE_MILLIS = 10_000;
/** A host that is back has read the log and claimed the pump by then. */
const CLAIMED_MILLIS = 10_000;
const SLACK_MINUTES = 2;
/** A thermometer that jumped is held against that for half a day. */
const AIR_MINUTES = 13 * 60;
/** Less than this share of a flood counts as none: what a reset cuts off is given anew from half on. */
const WHOLE_SHARE = 0.75;
/** The first try of a flood may be as short as this; what is shorter is a sip or a trial. */
const TRY_MINUTES_LEAST = 2.8;
const WATER_LITRES_LEAST = 20;
/** Steps of the plant, and whole seconds of the board. */
const SAME_MILLIS = 2000;

/** What keeps a host from its board. */
const ABSENCES: readonly InjectorName[] = ['link-lost', 'link-flapping', 'host-killed', 'host-frozen'];
/** What stops a pump that nobody has lost. */
const STOPS: readonly InjectorName[] = ['board-reset', 'hold', ...RELAY_BROKEN];

/** Stretches in which no host had the board, those that touch as one. */
const absencesOf = ({ broken, endMillis }: RunRecord): readonly Stretch[] => {
  const found: { fromMillis: number; untilMillis: number }[] = [];
  const spans = broken.filter(({ name }) => ABSENCES.includes(name));
  for (const { fromMillis, untilMillis } of spans.toSorted((a, b) => a.fromMillis - b.fromMillis)) {
    const last = found.at(-1);
    if (last === undefined || fromMillis > last.untilMillis + CLAIMED_MILLIS)
      found.push({ fromMillis, untilMillis: Math.min(untilMillis, endMillis) });
    else last.untilMillis = Math.min(Math.max(last.untilMillis, untilMillis), endMillis);
  }
  return found;
};

const lengthOf = ({ fromMillis, untilMillis }: Stretch): number => (untilMillis - fromMillis) / MINUTE;

/** Without a host the board floods at the hot end of the plan: a rest of its own is no longer than that of the plan. */
const neither = (
  record: RunRecord,
  plan: DayPlan,
  absence: Stretch,
  begun: readonly Stretch[],
): readonly Breach[] => {
  const owned = { ...absence, fromMillis: absence.fromMillis + LEASE_MILLIS };
  if (disturbed(record, ['link-flapping'], owned)) return [];
  // What stands in the way of a flood, but for the absence itself.
  const others = { ...record, broken: record.broken.filter(({ name }) => !ABSENCES.includes(name)) };
  return begun.flatMap((run, place): readonly Breach[] => {
    const rest = {
      fromMillis: run.untilMillis,
      untilMillis: begun[place + 1]?.fromMillis ?? record.endMillis,
    };
    const inside = {
      fromMillis: Math.max(rest.fromMillis, owned.fromMillis),
      untilMillis: Math.min(rest.untilMillis, owned.untilMillis),
    };
    if (inside.untilMillis <= inside.fromMillis) return [];
    const longest = longestPlannedRest(plan, rest);
    const dueMillis = Math.max(owned.fromMillis, rest.fromMillis + longest * MINUTE) + SLACK_MINUTES * MINUTE;
    // What breaks when the flood is overdue already has not kept it away.
    const awaited = { fromMillis: rest.fromMillis, untilMillis: dueMillis };
    if (inside.untilMillis <= dueMillis || isUnplanned(others, awaited)) return [];
    return [
      {
        invariant: 'I4',
        atMillis: inside.untilMillis,
        words: `no flood for ${lengthOf(rest).toFixed(0)} min while the board had the pump, ${longest.toFixed(0)} are its longest rest`,
      },
    ];
  });
};

/** A flood that runs goes on over every change of hands. */
const cut = (record: RunRecord, absence: Stretch): readonly Breach[] => {
  const shortestMinutes = Math.min(...record.farm.dayPlan.map(({ floodMinutes }) => floodMinutes));
  const turns = [absence.fromMillis, absence.fromMillis + LEASE_MILLIS, absence.untilMillis];
  return record.truth.runs.flatMap((run): readonly Breach[] => {
    const turn = turns.find(
      (atMillis) =>
        run.fromMillis + SAME_MILLIS < atMillis &&
        atMillis <= run.untilMillis + SAME_MILLIS &&
        run.untilMillis <= atMillis + CLAIMED_MILLIS,
    );
    if (turn === undefined || lengthOf(run) >= WHOLE_SHARE * shortestMinutes) return [];
    const around = { fromMillis: run.fromMillis, untilMillis: run.untilMillis };
    // A try is short, and comes where water did not.
    if (
      disturbed(record, [...STOPS, ...NO_WATER], around, 30, 1) ||
      isUnplanned(record, { ...around, untilMillis: around.fromMillis })
    )
      return [];
    return [
      {
        invariant: 'I4',
        atMillis: run.untilMillis,
        words: `a flood of ${lengthOf(run).toFixed(1)} min was cut off as the pump changed hands`,
      },
    ];
  });
};

/**
 * The shortest rest of the whole plan in the true air between two floods; that of the bounds where a host may not know the air.
 * While the board is out of hearing so is its thermometer, and the turn goes on at the pace of the shortest rest.
 */
const shortestRest = (record: RunRecord, absence: Stretch, both: Stretch, floodMinutes: number): number => {
  const { farm, truth } = record;
  const bound = Math.min(farm.bounds.restMinutesByDay.shortest, farm.bounds.restMinutesByNight.shortest);
  if (farm.stretch !== 'never' || lying(record, AIR, both, AIR_MINUTES)) return bound;
  const plan = dayPlanOf(farm, both);
  // A host that does not know the time of day lengthens nothing for cool air.
  const coolest = disturbed(record, CLOCKS_ASTRAY, both, AIR_MINUTES)
    ? farm.temperatureRule.referenceCelsius
    : -Infinity;
  const rests = truth.airCelsius
    .slice(stepAt(record, both.fromMillis), stepAt(record, both.untilMillis))
    .map((celsius) => Math.max(celsius, coolest))
    .flatMap((celsius) => turnsAtAnyTime(farm, plan, celsius).map(({ rest }) => rest));
  const hottest = bound + floodMinutes;
  const unheard = {
    fromMillis: Math.max(absence.fromMillis, both.fromMillis),
    untilMillis: Math.min(absence.untilMillis, both.untilMillis),
  };
  const away = Math.min(hottest, Math.max(0, lengthOf(unheard)));
  const turn = Math.min(...rests) - SLACK_MINUTES + floodMinutes;
  return Math.max(bound, away + turn * (1 - away / hottest) - floodMinutes);
};

/** What one of the two has given the other does not give again. */
const doubled = (record: RunRecord, absence: Stretch, whole: readonly Stretch[]): readonly Breach[] => {
  const { restMinutesByDay, restMinutesByNight } = record.farm.bounds;
  const least = Math.min(restMinutesByDay.shortest, restMinutesByNight.shortest);
  return whole.slice(1).flatMap((run, place): readonly Breach[] => {
    const before = whole[place] ?? run;
    const rest = { fromMillis: before.untilMillis, untilMillis: run.fromMillis };
    // The two are of two owners where the pump changed hands between their starts.
    const between = [absence.fromMillis + LEASE_MILLIS, absence.untilMillis].some(
      (turn) => before.fromMillis <= turn && turn <= run.fromMillis + CLAIMED_MILLIS,
    );
    const both = { fromMillis: before.fromMillis, untilMillis: run.fromMillis };
    // The board floods as on the hottest day; a host goes by the air.
    const byHost = before.fromMillis <= absence.untilMillis && absence.untilMillis <= run.fromMillis;
    const shortest = byHost ? shortestRest(record, absence, both, lengthOf(before)) : least;
    if (!between || lengthOf(rest) >= shortest - 0.1 || litresInto(record, before) < WATER_LITRES_LEAST)
      return [];
    if (disturbed(record, ['flood-now', ...STOPS], both, 10, 0.1) || disturbed(record, NO_WATER, both, 60))
      return [];
    // A flood whose return was not seen is a missed one to either of them, and is given again.
    if (lying(record, RETURN, both)) return [];
    return [
      {
        invariant: 'I4',
        atMillis: run.fromMillis,
        words: `host and board both flooded, ${lengthOf(rest).toFixed(1)} min apart; ${shortest.toFixed(0)} are the shortest rest`,
      },
    ];
  });
};

/** I4 where the board keeps the plants: host or board, never neither; and no flood is cut off or given twice as the pump changes hands. */
export const keptOwner: Check = (record) => {
  if (record.keeps !== true) return [];
  const shortestMinutes = Math.min(...record.farm.dayPlan.map(({ floodMinutes }) => floodMinutes));
  const whole = record.truth.runs.filter((run) => lengthOf(run) >= WHOLE_SHARE * shortestMinutes);
  const begun = record.truth.runs.filter((run) => lengthOf(run) >= TRY_MINUTES_LEAST);
  const plan = dayPlanOf(record.farm, { fromMillis: record.startMillis, untilMillis: record.endMillis });
  return absencesOf(record).flatMap((absence) => [
    ...neither(record, plan, absence, begun),
    ...cut(record, absence),
    ...doubled(record, absence, whole),
  ]);
};
