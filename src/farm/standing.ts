import type { Bench, Farm, Standing } from './farm.ts';

/** What stands on a bench and what comes next, in the order of time; the first has no date: it stands already. */
export const standingsOf = (bench: Bench): readonly (Standing & { readonly on: string | null })[] => [
  { ...bench, on: null },
  ...bench.next,
];

/**
 * What stands on a bench on a local date. Controller, checks and the simulated plant all ask here; the day of a change
 * belongs to what comes.
 */
export const standingOn = (bench: Bench, date: string): Standing =>
  bench.next.findLast(({ on }) => on <= date) ?? bench;

/** Whether plants stand on a bench now or by any of what comes next. */
export const hasPlants = (bench: Bench): boolean => standingsOf(bench).some(({ plants }) => plants > 0);

/**
 * The farm as it stands on the first of some days, with only those changes that come up to the last: what a rehearsal of
 * these days is about.
 */
export const farmWithin = (farm: Farm, first: string, last: string): Farm => ({
  ...farm,
  benches: farm.benches.map((bench) => {
    const { crop, traits, plants, sown, startedInPlace } = standingOn(bench, first);
    const next = bench.next.filter(({ on }) => on > first && on <= last);
    return { ...bench, crop, traits, plants, sown, startedInPlace, next };
  }),
});
