import { dateBefore, daysBetweenDates } from '../time/local-day.ts';
import { channelMetres } from './channel-water.ts';
import type { Bench, Farm, Standing } from './farm.ts';
import { standingOn } from './standing.ts';
import { warnWhen, type FarmWarning } from './warning.ts';

/** Beyond this multiple of the usual harvest age a bench is more likely forgotten in the file than standing. */
const AGE_SHARE_MAX = 1.6;
/** From one large head a metre to one herb every 8 cm. */
const PLANTS_PER_METRE = { least: 1, most: 12 };

/** Where in the file a thing that stands on a bench is told: the bench itself, or an entry of what comes next. */
const pathOf = (bench: Bench, place: number, standing: Standing): readonly (string | number)[] => {
  const entry = bench.next.findIndex((next) => next === standing);
  return entry < 0 ? ['benches', place] : ['benches', place, 'next', entry];
};

const isOverAge = ({ sown, traits }: Standing, date: string): boolean =>
  daysBetweenDates(sown, date) > AGE_SHARE_MAX * traits.harvestDays;

/** Of what stands there today. */
const ageWarnings = (bench: Bench, place: number, today: string): readonly FarmWarning[] => {
  const standing = standingOn(bench, today);
  const { plants, sown, crop, traits } = standing;
  if (plants === 0) return [];
  const path = [...pathOf(bench, place, standing), 'sown'];
  const ageDays = daysBetweenDates(sown, today);
  return [
    ...warnWhen(ageDays < 0, {
      path,
      says: `${bench.name} is sown only in ${-ageDays} days, on ${sown}.`,
      advice: 'Until then write plants: 0 and what comes under next, or correct the date.',
    }),
    ...warnWhen(isOverAge(standing, today), {
      path,
      says: `${bench.name} is ${ageDays} days old; ${crop} is usually cut at ${traits.harvestDays}.`,
      advice:
        'If it was cut, write the new sowing date and number of plants, or what came onto the bench under next.',
    }),
  ];
};

/** Of what comes: old already when it comes, or still there long after its usual harvest. */
const comingWarnings = (bench: Bench, place: number, today: string): readonly FarmWarning[] =>
  bench.next.flatMap((next, entry) => {
    if (next.on <= today) return [];
    const before = standingOn(bench, dateBefore(next.on));
    const path = ['benches', place, 'next', entry];
    const beforeDays = daysBetweenDates(before.sown, next.on);
    const stoodOver = before.plants > 0 && !isOverAge(before, today) && isOverAge(before, next.on);
    return [
      ...warnWhen(next.plants > 0 && isOverAge(next, next.on), {
        path: [...path, 'sown'],
        says: `${bench.name}: what comes on ${next.on} is ${daysBetweenDates(next.sown, next.on)} days old by then; ${next.crop} is usually cut at ${next.traits.harvestDays}.`,
        advice: 'Is the year right?',
      }),
      ...warnWhen(stoodOver, {
        path: [...path, 'on'],
        says: `${bench.name}: what stands there is ${beforeDays} days old when this comes; ${before.crop} is usually cut at ${before.traits.harvestDays}.`,
        advice: 'If the bench is cleared before, write that day as well, alone.',
      }),
    ];
  });

const densityWarnings = (bench: Bench, place: number): readonly FarmWarning[] =>
  [bench, ...bench.next].flatMap((standing) => {
    const perMetre = standing.plants / channelMetres(bench);
    return warnWhen(
      standing.plants > 0 && (perMetre < PLANTS_PER_METRE.least || perMetre > PLANTS_PER_METRE.most),
      {
        path: [...pathOf(bench, place, standing), 'plants'],
        says: `${bench.name}: ${perMetre.toFixed(1)} plants in each metre of channel; ${PLANTS_PER_METRE.least} to ${PLANTS_PER_METRE.most} is usual.`,
        advice: 'The number is of all plants on the bench. Check also channels and lengthMetres.',
      },
    );
  });

/** Benches that are too old, not sown yet, or planted at an unlikely distance, now and by what comes next. */
export const cropWarnings = (farm: Farm, today: string): readonly FarmWarning[] =>
  farm.benches.flatMap((bench, place) => [
    ...ageWarnings(bench, place, today),
    ...comingWarnings(bench, place, today),
    ...densityWarnings(bench, place),
  ]);
