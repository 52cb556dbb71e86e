import { daysBetweenDates } from '../time/local-day.ts';
import { channelMetres } from './channel-water.ts';
import type { Bench, Farm } from './farm.ts';
import { warnWhen, type FarmWarning } from './warning.ts';

/** Beyond this multiple of the usual harvest age a bench is more likely forgotten in the file than standing. */
const AGE_SHARE_MAX = 1.6;
/** From one large head a metre to one herb every 8 cm. */
const PLANTS_PER_METRE = { least: 1, most: 12 };

const ageWarnings = (bench: Bench, place: number, today: string): readonly FarmWarning[] => {
  if (bench.plants === 0) return [];
  const path = ['benches', place, 'sown'];
  const ageDays = daysBetweenDates(bench.sown, today);
  const { harvestDays } = bench.traits;
  return [
    ...warnWhen(ageDays < 0, {
      path,
      says: `${bench.name} is sown only in ${-ageDays} days, on ${bench.sown}.`,
      advice: 'Until then write plants: 0, or correct the date.',
    }),
    ...warnWhen(ageDays > AGE_SHARE_MAX * harvestDays, {
      path,
      says: `${bench.name} is ${ageDays} days old; ${bench.crop} is usually cut at ${harvestDays}.`,
      advice: 'If it was cut, write the new sowing date and number of plants.',
    }),
  ];
};

const densityWarnings = (bench: Bench, place: number): readonly FarmWarning[] => {
  const perMetre = bench.plants / channelMetres(bench);
  const path = ['benches', place, 'plants'];
  const says = `${bench.name}: ${perMetre.toFixed(1)} plants in each metre of channel; ${PLANTS_PER_METRE.least} to ${PLANTS_PER_METRE.most} is usual.`;
  return warnWhen(
    bench.plants > 0 && (perMetre < PLANTS_PER_METRE.least || perMetre > PLANTS_PER_METRE.most),
    {
      path,
      says,
      advice: 'The number is of all plants on the bench. Check also channels and lengthMetres.',
    },
  );
};

/** Benches that are too old, not sown yet, or planted at an unlikely distance. */
export const cropWarnings = (farm: Farm, today: string): readonly FarmWarning[] =>
  farm.benches.flatMap((bench, place) => [
    ...ageWarnings(bench, place, today),
    ...densityWarnings(bench, place),
  ]);
