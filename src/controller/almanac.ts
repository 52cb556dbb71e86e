import { factsOn } from '../estimate/bench-facts.ts';
import { referenceDay } from '../estimate/reference-day.ts';
import { dayView, shows } from '../plan/day-view.ts';
import type { Almanac } from './state.ts';
import type { Turn } from './turn.ts';

/** What holds for the local day of this moment; without a wall clock the facts of the day before stay. */
export const almanacNow = ({ farm, state, now }: Turn): Almanac => {
  const { almanac } = state;
  if (now.wall === 'unknown') return almanac.view === null ? almanac : { ...almanac, view: null };
  if (almanac.view !== null && shows(almanac.view, now.wall)) return almanac;
  const view = dayView(farm, now.wall);
  return { view, facts: factsOn(farm, view.day.date), reference: referenceDay(farm, view.day.start) };
};
