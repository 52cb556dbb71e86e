import { BrokenAssertion } from '../units/assertion.ts';
import { benchProblems } from './bench-checks.ts';
import { KNOWN_CROPS } from './crops.ts';
import { dayPartProblems, twiceNamed } from './day-part-checks.ts';
import { dayPlanProblems } from './day-plan-checks.ts';
import type { Bench, DayPart, Farm, Pace } from './farm.ts';
import { issueProblems } from './issue-words.ts';
import { orderProblems } from './order-checks.ts';
import type { FarmProblem } from './problem.ts';
import { readableFarm } from './readable.ts';
import { farmSchema, type CropTraits, type FarmFile } from './schema.ts';
import { wiringProblems } from './wiring-checks.ts';

export type { FarmProblem } from './problem.ts';

export type ParsedFarm =
  | { readonly ok: true; readonly farm: Farm }
  | { readonly ok: false; readonly problems: readonly FarmProblem[] };

const traitsOf = (crop: string, own: FarmFile['crops']): CropTraits => {
  for (const crops of [own ?? {}, KNOWN_CROPS]) {
    const traits = Object.hasOwn(crops, crop) ? crops[crop] : undefined;
    if (traits !== undefined) return traits;
  }
  throw new BrokenAssertion(`crop ${crop} passed the checks and is not known`);
};

const paceOf = ({ part, floods, restMinutes }: FarmFile['dayPlan'][number]): Pace => {
  if (floods !== undefined) return { kind: 'number', floods };
  if (restMinutes !== undefined) return { kind: 'rest', restMinutes };
  throw new BrokenAssertion(`part ${part} passed the checks and has no pace`);
};

const farmFrom = ({ benches, crops, dayPlan, ...rest }: FarmFile): Farm => ({
  ...rest,
  benches: benches.map((bench): Bench => ({ ...bench, traits: traitsOf(bench.crop, crops) })),
  dayPlan: dayPlan.map((part): DayPart => ({
    name: part.part,
    from: part.from,
    to: part.to,
    pace: paceOf(part),
    floodMinutes: part.floodMinutes,
  })),
});

/** How values of the file agree with one another, as far as they can be read. */
const agreementProblems = (raw: unknown): readonly FarmProblem[] => {
  const file = readableFarm(raw);
  return [
    ...twiceNamed(
      file.benches.map((bench) => bench.name),
      (place) => ['benches', place, 'name'],
    ),
    ...twiceNamed(
      file.dayPlan.map((part) => part.part),
      (place) => ['dayPlan', place, 'part'],
    ),
    ...benchProblems(file),
    ...dayPartProblems(file, raw),
    ...dayPlanProblems(file),
    ...orderProblems(file),
    ...wiringProblems(file, raw),
  ];
};

/**
 * A farm from what a farm file holds, or every problem that it has: first those of single values, in the
 * order of the schema, then those of values that do not agree. Never throws for what stands in the file.
 */
export const parseFarm = (raw: unknown): ParsedFarm => {
  const read = farmSchema.safeParse(raw);
  const problems = [
    ...(read.success ? [] : issueProblems(farmSchema, raw, read.error.issues)),
    ...agreementProblems(raw),
  ];
  return read.success && problems.length === 0
    ? { ok: true, farm: farmFrom(read.data) }
    : { ok: false, problems };
};
