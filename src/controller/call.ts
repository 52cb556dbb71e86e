import { allWell, withVerdicts, type DayFacts } from '../alarm/all-well.ts';
import { callsAfter, type Call } from '../alarm/calls.ts';
import { languageOf } from '../alarm/language/languages.ts';
import type { Outlook, TimeLeft } from '../estimate/time-left.ts';
import type { Farm } from '../farm/farm.ts';
import { ALL_WELL_AT } from '../farm/herald-schema.ts';
import type { Happening } from '../journal/entry.ts';
import { goodValue } from '../sense/reading.ts';
import { switched, tankLitres } from '../sense/senses.ts';
import { believedWall, mayBeSet } from '../time/clock-trust.ts';
import { localTimeOfDay } from '../time/local-day.ts';
import { itemAt } from '../units/assertion.ts';
import { turnedTo, type Turn } from './turn.ts';

/** A low alarm waits for the end of these hours, by the clock of the farm. Common practice, no source. */
const NIGHT = { fromMinute: 22 * 60, untilMinute: 7 * 60 } as const;

/**
 * Where nobody knows the time a low alarm is called: better out of bed than never. Only while the network may still set the clock
 * after a start of the machine, it waits.
 */
const hourNow = ({ farm, state, now }: Turn): 'night' | 'day' => {
  const wall = believedWall(state.clock, now.monotonic);
  if (wall === 'unknown') return mayBeSet(state.clock, now.monotonic) ? 'night' : 'day';
  const { minute } = localTimeOfDay(wall, farm.place.timeZone);
  return minute >= NIGHT.fromMinute || minute < NIGHT.untilMinute ? 'night' : 'day';
};

/** What is seen of the tank: of one at which nothing looks there is nothing to say, least of all that it is well. */
const tankSeen = ({ farm, state, now }: Turn): DayFacts['tank'] => {
  const { tankFloat, tankLevel } = farm.evidence;
  const litres = tankLevel ? goodValue(tankLitres(state.senses, now.monotonic)) : undefined;
  if (litres !== undefined) return litres;
  if (state.tank.kind !== 'well') return 'low';
  const float = tankFloat ? goodValue(switched(state.senses, 'tank-float', now.monotonic)) : undefined;
  return float === undefined ? null : 'well';
};

const dayFacts = (turn: Turn, left: () => TimeLeft): DayFacts => {
  const { state } = turn;
  return {
    tank: tankSeen(turn),
    strengthMillisiemensPerCm: state.host?.strengthMillisiemensPerCm ?? null,
    minutesLeft: left().minutes,
  };
};

/** Whether nothing is left to save: every bench with plants is more likely below its wilt floor than above it. */
const isLost = ({ farm, state }: Turn, { facts }: Outlook): boolean =>
  state.belief.benches.every(
    ({ theta }, place) => !itemAt(facts, place).planted || theta <= farm.floors.wilt,
  );

/** Of the farm file's clock time, such as 07:30. */
const allWellMinute = ({ herald }: Farm): number => {
  const [hour = 0, minute = 0] = (herald?.allWellAt ?? ALL_WELL_AT).split(':').map(Number);
  return 60 * hour + minute;
};

const called = ({ alarm, also, kind, rung }: Call): Happening => ({
  kind: 'alarm-called',
  alarm,
  also,
  call: kind,
  rung,
});

export interface CalledTurn {
  readonly turn: Turn;
  readonly calls: readonly Call[];
}

/** Works out whom to call now, and once a day says that all is well. */
export const call = (before: Turn, left: () => TimeLeft, outlook: Outlook): CalledTurn => {
  const { farm, state, now, entries } = before;
  const verdicts = entries.flatMap((entry) => (entry.kind === 'verdict' ? [entry.verdict.kind] : []));
  const day = withVerdicts(state.day, verdicts, now.monotonic);
  const said = callsAfter({
    alarms: state.alarms,
    kept: state.calls,
    now: now.monotonic,
    language: languageOf(farm),
    minutesLeft: () => left().minutes,
    isLost: () => isLost(before, outlook),
    hour: () => hourNow(before),
  });
  const daily = allWell({
    farm,
    kept: day,
    alarms: state.alarms,
    day: state.almanac.view?.day ?? null,
    now,
    facts: () => dayFacts(before, left),
    atMinute: allWellMinute(before.farm),
  });
  const calls = daily.call === null ? said.calls : [...said.calls, daily.call];
  return {
    turn: turnedTo(before, { calls: said.kept, day: daily.kept }, calls.map(called)),
    calls,
  };
};
