import { BrokenAssertion } from '../units/assertion.ts';
import { benchProblems } from './bench-checks.ts';
import { KNOWN_CROPS } from './crops.ts';
import { dayPartProblems, twiceNamed } from './day-part-checks.ts';
import { dayPlanProblems } from './day-plan-checks.ts';
import type { Bench, DayPart, Farm, Next, Pace, Standing } from './farm.ts';
import { heraldProblems, heraldSecretProblems } from './herald-checks.ts';
import { issueProblems } from './issue-words.ts';
import { nextProblems } from './next-checks.ts';
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

type WrittenBench = FarmFile['benches'][number];

const nextFrom = (
  written: WrittenBench['next'],
  first: Standing,
  crops: FarmFile['crops'],
): readonly Next[] => {
  let { crop, traits } = first;
  return written.map((next): Next => {
    const { on, plants = 0, sown = on, startedInPlace } = next;
    if (next.crop !== undefined) {
      ({ crop } = next);
      traits = traitsOf(crop, crops);
    }
    return { on, crop, traits, plants, sown, startedInPlace };
  });
};

const benchFrom = ({ next, ...bench }: WrittenBench, crops: FarmFile['crops']): Bench => {
  const first = { ...bench, traits: traitsOf(bench.crop, crops) };
  return { ...first, next: nextFrom(next, first, crops) };
};

const farmFrom = ({ benches, crops, dayPlan, ...rest }: FarmFile): Farm => ({
  ...rest,
  benches: benches.map((bench) => benchFrom(bench, crops)),
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
    ...nextProblems(file, raw),
    ...dayPartProblems(file, raw),
    ...dayPlanProblems(file),
    ...orderProblems(file),
    ...wiringProblems(file, raw),
    ...heraldProblems(raw),
  ];
};

/**
 * A farm from what a farm file holds, or every problem that it has: first those of single values, in the
 * order of the schema, then those of values that do not agree. Never throws for what stands in the file.
 */
export const parseFarm = (raw: unknown): ParsedFarm => {
  const read = farmSchema.safeParse(raw);
  const secrets = heraldSecretProblems(raw);
  // What the schema says of a secret would repeat it.
  const secretPlaces = new Set(secrets.map(({ path }) => JSON.stringify(path)));
  const issues = read.success ? [] : issueProblems(farmSchema, raw, read.error.issues);
  const problems = [
    ...secrets,
    ...issues.filter(({ path }) => !secretPlaces.has(JSON.stringify(path))),
    ...agreementProblems(raw),
  ];
  return read.success && problems.length === 0
    ? { ok: true, farm: farmFrom(read.data) }
    : { ok: false, problems };
};
