import { FILL_MINUTES, DRAIN_MINUTES, moved, wetFrom, wetUntil, type Belief } from '../estimate/belief.ts';
import { factsOn } from '../estimate/bench-facts.ts';
import { hotDayUptake, measuredUptake, referenceDay } from '../estimate/reference-day.ts';
import type { Outlook } from '../estimate/time-left.ts';
import { dayView, shows } from '../plan/day-view.ts';
import { goodValue } from '../sense/reading.ts';
import { humidityPercent } from '../sense/senses.ts';
import { afterMinutes } from '../time/instant.ts';
import { farmLitresPerMinute, sighting, type Sighting } from '../verify/sighting.ts';
import { usualReturn } from '../verify/learned.ts';
import { believedAir } from './air.ts';
import type { Almanac } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';

/** Keeps the ratio of two small uptakes at night from meaning anything. */
const NIGHT_MILLIMETRES_PER_HOUR = 0.05;

const almanacNow = ({ farm, state, now }: Turn): Almanac => {
  const { almanac } = state;
  if (now.wall === 'unknown') return almanac.view === null ? almanac : { ...almanac, view: null };
  if (almanac.view !== null && shows(almanac.view, now.wall)) return almanac;
  const view = dayView(farm, now.wall);
  return { view, facts: factsOn(farm, view.day.date), reference: referenceDay(farm, view.day.start) };
};

/** Where water can be seen the roots are wet while it is; where not, from shortly after the command. */
const wetNow = (belief: Belief, seen: Sighting, turn: Turn): Belief => {
  const { asked } = turn.state.guard;
  switch (seen.water) {
    case 'seen':
      return wetFrom(belief, turn.now.monotonic);
    case 'not-seen':
      return wetUntil(belief, turn.now.monotonic);
    case 'unknown':
      if (asked.kind === 'on') {
        const powerless =
          seen.current === 'not-seen' || (seen.contact === 'not-seen' && seen.current !== 'seen');
        return powerless ? belief : wetFrom(belief, afterMinutes(asked.since, FILL_MINUTES));
      }
      return asked.since === null ? belief : wetUntil(belief, afterMinutes(asked.since, DRAIN_MINUTES));
  }
};

export interface Believed {
  readonly turn: Turn;
  readonly seen: Sighting;
  readonly outlook: Outlook;
}

/** Moves the belief to this moment by the air as measured, or by the hot day where there is no good reading. */
export const believe = (turn: Turn): Believed => {
  const { farm, state, now } = turn;
  const almanac = almanacNow(turn);
  const seen = sighting(
    farm,
    state.senses,
    usualReturn(state.learned, farmLitresPerMinute(farm)),
    state.memory.returnTrust.stuckSince === null ? 'proves' : 'stuck',
    now.monotonic,
  );
  const hot = hotDayUptake(almanac.reference, now.wall);
  const air = goodValue(believedAir(turnedTo(turn, { almanac })));
  const humidity = goodValue(humidityPercent(state.senses, now.monotonic));
  const uptake =
    air === undefined || now.wall === 'unknown' ? hot : measuredUptake(farm, now.wall, air, humidity);
  const belief = moved(state.belief, almanac.facts, uptake, farm.floors.stress, now.monotonic);
  const hotterShare = (uptake + NIGHT_MILLIMETRES_PER_HOUR) / (hot + NIGHT_MILLIMETRES_PER_HOUR);
  return {
    turn: turnedTo(turn, { almanac, belief: wetNow(belief, seen, turn) }),
    seen,
    outlook: { facts: almanac.facts, day: almanac.reference, hotterShare },
  };
};
