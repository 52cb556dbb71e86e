import { fittedBranches } from '../physics/pump-split.ts';
import { daysBetweenDates } from '../time/local-day.ts';
import { KNOWN_CROPS } from './crops.ts';
import { nearestWord } from './nearest-word.ts';
import type { FarmProblem } from './problem.ts';
import type { ReadableBench, ReadableFarm } from './readable.ts';

/** A sowing noted the evening before is no slip of the pen; later ones are not sown yet. */
const SOWN_DAYS_AHEAD_MAX = 1;

const cropProblems = ({ benches, crops }: ReadableFarm): readonly FarmProblem[] => {
  const known = [...new Set([...Object.keys(KNOWN_CROPS), ...Object.keys(crops)])];
  const named = benches.flatMap(({ crop, next }, place) => [
    { crop, path: ['benches', place, 'crop'] },
    ...next.map((each, entry) => ({ crop: each.crop, path: ['benches', place, 'next', entry, 'crop'] })),
  ]);
  return named.flatMap(({ crop, path }): readonly FarmProblem[] => {
    if (crop === undefined || known.includes(crop)) return [];
    const near = nearestWord(crop, known);
    return [
      {
        path,
        found: `“${crop}”`,
        allowed: known.join(', '),
        problem: 'This crop is neither built in nor described under crops.',
        advice: near === null ? `Describe it under crops, by this name.` : `Perhaps ${near} was meant.`,
      },
    ];
  });
};

const sowingProblems = ({ benches, invented }: ReadableFarm): readonly FarmProblem[] =>
  invented === undefined
    ? []
    : benches.flatMap(({ sown }, place): readonly FarmProblem[] => {
        if (sown === undefined) return [];
        const daysAhead = daysBetweenDates(invented.today, sown);
        if (daysAhead <= SOWN_DAYS_AHEAD_MAX) return [];
        return [
          {
            path: ['benches', place, 'sown'],
            found: sown,
            allowed: `a date up to ${SOWN_DAYS_AHEAD_MAX} day after ${invented.today}, the invented today`,
            problem: `This bench would be sown only ${daysAhead} days after today.`,
          },
        ];
      });

interface MeasuredBench {
  readonly litresPerMinute: number;
  readonly liftMetres: number;
}

const measured = ({ litresPerMinute, liftMetres }: ReadableBench): MeasuredBench | null =>
  litresPerMinute === undefined || liftMetres === undefined ? null : { litresPerMinute, liftMetres };

/** Whether the pump can carry what was measured by bucket and stopwatch: the sum of all benches at the highest lift. */
const deliveryProblems = ({ benches, pump }: ReadableFarm): readonly FarmProblem[] => {
  const all = benches.map(measured).filter((bench) => bench !== null);
  if (pump === undefined || all.length === 0 || all.length < benches.length) return [];
  const fit = fittedBranches({
    headMetresMax: pump.headMetresMax,
    litresPerMinuteMax: pump.litresPerMinuteMax,
    liftMetres: all.map((bench) => bench.liftMetres),
    litresPerMinute: all.map((bench) => bench.litresPerMinute),
  });
  if (fit.kind === 'fitted') return [];
  const total = all.reduce((sum, bench) => sum + bench.litresPerMinute, 0);
  const left = fit.headMetres > 0 ? `only ${fit.headMetres.toFixed(1)} m of lift` : 'no lift at all';
  return [
    {
      path: ['pump', 'litresPerMinuteMax'],
      found: `${pump.litresPerMinuteMax} at no lift and ${pump.headMetresMax} m at no flow`,
      allowed: `a pump that lifts ${total.toFixed(1)} L/min, the sum of all benches, by more than ${fit.neededMetres.toFixed(1)} m`,
      problem: `By its label the pump has ${left} left at that flow.`,
      advice: 'Measure the benches again with every bench running, and read the label again.',
    },
  ];
};

/** Crops, sowing dates and flows of the benches against the rest of the file. */
export const benchProblems = (file: ReadableFarm): readonly FarmProblem[] => [
  ...cropProblems(file),
  ...sowingProblems(file),
  ...deliveryProblems(file),
];
