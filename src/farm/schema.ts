import { z } from 'zod';
import { isCalendarDate, isTimeZone } from '../time/local-day.ts';
import { heraldSchema, outsideWatcherSchema } from './herald-schema.ts';
import { LANGUAGES_SPOKEN } from './languages-spoken.ts';
import { LIMITS } from './limits.ts';
import { nameKeySchema, nameSchema } from './name-schema.ts';
import { tankSchema } from './tank-schema.ts';
import { wiringSchema } from './wiring-schema.ts';

export const BENCHES_MAX = 64;
export const DAY_PARTS_MAX = 24;
/** Changes of one bench: two years of the fastest crop, and no list that is too long to read. */
export const NEXT_MAX = 24;

/**
 * The farm file as the grower writes it. Every key is described here once; the JSON Schema for editors is
 * made from this same object. Ranges refuse slips of the pen; `physics-check` warns of unlikely values.
 */
const within = (bounds: { readonly least: number; readonly most: number }): z.ZodNumber =>
  z.number().min(bounds.least).max(bounds.most);

const date = z
  .string()
  .refine(isCalendarDate, { error: 'expected a calendar date such as 2026-06-05' })
  .meta({ format: 'date', description: 'a calendar date such as 2026-06-05' });

const place = z.strictObject({
  latitudeDegrees: z.number().min(-70).max(70).describe('north positive'),
  longitudeDegrees: z.number().min(-180).max(180).describe('east positive'),
  elevationMetres: z.number().min(-400).max(5000),
  timeZone: z
    .string()
    .refine(isTimeZone, { error: 'expected an IANA time zone such as Europe/Lisbon' })
    .describe('IANA name, such as Europe/Lisbon'),
  sunShare: z
    .number()
    .min(0.1)
    .max(1)
    .default(1)
    .describe('share of the sun that reaches the leaves: 1 in the open, less under net, film or glass'),
  windMetresPerSecond: z
    .number()
    .min(0)
    .max(15)
    .default(1)
    .describe(
      'usual wind at the benches; used by the second opinion on uptake and over the wet cups of seedlings',
    ),
});

const pump = z.strictObject({
  headMetresMax: z.number().min(0.5).max(100).describe('lift at which nothing flows, from the label'),
  litresPerMinuteMax: z.number().min(1).max(2000).describe('flow at no lift, from the label'),
  watts: z.number().min(1).max(5000),
  longestOnMinutes: within(LIMITS.longestOnMinutes).default(45),
  shortestOffSeconds: within(LIMITS.shortestOffSeconds).default(30),
});

const plants = z.number().int().min(0).max(100_000);
const cropName = z.string().min(1);
const startedInPlace = z
  .boolean()
  .default(false)
  .describe('sown or set as seedlings in cups in the channels themselves, not as grown plants');

/** The day alone clears the bench; `next-checks` asks for the other keys where one of them is written. */
const nextOnBench = z.strictObject({
  on: date.describe(
    'the day of the change, such as 2026-06-20; alone: the bench is cleared and stands empty',
  ),
  plants: plants.optional(),
  crop: cropName.optional(),
  sown: date.optional(),
  startedInPlace,
});

const bench = z.strictObject({
  name: nameSchema,
  channels: z.number().int().min(1).max(500),
  lengthMetres: z.number().min(0.3).max(60).describe('of one channel'),
  innerDiameterMillimetres: z.number().min(20).max(400),
  slopePercent: z.number().min(0.1).max(15),
  litresPerMinute: z
    .number()
    .min(0.1)
    .max(1000)
    .describe('into all channels of the bench together, by bucket and stopwatch, with every bench running'),
  liftMetres: z.number().min(-5).max(60).default(1.2).describe('inlet height above the water in the tank'),
  plants,
  crop: cropName,
  sown: date,
  startedInPlace,
  next: z
    .array(nextOnBench)
    .max(NEXT_MAX)
    .default([])
    .describe('what comes next on the bench, in the order of time; a day alone leaves it empty'),
});

const crop = z.strictObject({
  leafSquareMetresMax: z.number().min(0.005).max(2).describe('leaf area of one grown plant'),
  rootGramsMax: z.number().min(1).max(500).describe('fresh root mass of one grown plant'),
  halfGrownDays: z.number().min(5).max(200).describe('age from sowing at half of both'),
  growthPerDay: z.number().min(0.02).max(0.6).describe('steepness of the growth curve'),
  plantsPerSquareMetre: z.number().min(1).max(500),
  harvestDays: z.number().min(10).max(400).describe('usual age from sowing at harvest'),
});

const BOUNDARY = /^(?:([01]\d|2[0-4]):([0-5]\d)|(sunrise|sunset)(?:([+-])(\d{1,2}):([0-5]\d))?)$/;

/** Where a day part begins or ends: a time on the local clock, or the sun with an offset. */
export type Boundary =
  | { readonly kind: 'clock'; readonly minuteOfDay: number }
  | { readonly kind: 'sun'; readonly event: 'sunrise' | 'sunset'; readonly offsetMinutes: number };

/** A boundary as written, or null when the text is none. */
export const readBoundary = (text: string): Boundary | null => {
  const [, hour, minute, event, sign, offsetHour, offsetMinute] = BOUNDARY.exec(text) ?? [];
  if (hour !== undefined && minute !== undefined) {
    const minuteOfDay = Number(hour) * 60 + Number(minute);
    return minuteOfDay <= 24 * 60 ? { kind: 'clock', minuteOfDay: minuteOfDay % (24 * 60) } : null;
  }
  if (event !== 'sunrise' && event !== 'sunset') return null;
  const size = Number(offsetHour ?? 0) * 60 + Number(offsetMinute ?? 0);
  if (size > LIMITS.sunOffsetMinutes.most) return null;
  return { kind: 'sun', event, offsetMinutes: sign === '-' && size > 0 ? -size : size };
};

const boundary = z
  .string()
  .regex(BOUNDARY)
  .transform((text, context): Boundary => {
    const read = readBoundary(text);
    if (read !== null) return read;
    context.addIssue({ code: 'custom', message: 'expected a time such as 08:00 or sunrise+00:30' });
    return z.NEVER;
  })
  .describe('a local clock time such as "08:00", or the sun with an offset such as "sunset-01:00"');

const dayPart = z.strictObject({
  part: nameSchema,
  from: boundary,
  to: boundary,
  floods: within(LIMITS.floodsPerPart)
    .int()
    .optional()
    .describe('number of floods, spread evenly over the part; instead of restMinutes'),
  restMinutes: within(LIMITS.restMinutes)
    .optional()
    .describe('from the end of one flood to the start of the next; instead of floods'),
  floodMinutes: within(LIMITS.floodMinutes),
});

const span = (bounds: {
  readonly least: number;
  readonly most: number;
}): z.ZodObject<{ shortest: z.ZodNumber; longest: z.ZodNumber }> =>
  z.strictObject({ shortest: within(bounds), longest: within(bounds) });

const bounds = z.strictObject({
  restMinutesByDay: span(LIMITS.restMinutes),
  restMinutesByNight: span(LIMITS.restMinutes),
  floodMinutes: span(LIMITS.floodMinutes),
  startsPerHour: within(LIMITS.startsPerHour).int(),
});

const temperatureRule = z.strictObject({
  referenceCelsius: z.number().min(0).max(45),
  restPercentPerDegree: within(LIMITS.restPercentPerDegree).describe(
    '0 or negative: hotter air, shorter rest',
  ),
  floodPercentPerDegree: within(LIMITS.floodPercentPerDegree).default(0),
});

const stretch = z.union([
  z.literal('never'),
  z.strictObject({
    oneMissMarginMin: z
      .number()
      .min(0)
      .max(0.6)
      .describe('points of held water to spare after a missed flood'),
  }),
]);

const evidence = z.strictObject({
  returnFlow: z.enum(['switch', 'meter', 'none']).describe('on the common return'),
  pumpCurrent: z.boolean().default(false),
  relayReadBack: z.boolean().default(false),
  tankLevel: z.boolean().default(false).describe('a sensor that reads litres'),
  tankFloat: z.boolean().default(false).describe('a switch that opens when the tank is low'),
  leakSensor: z.boolean().default(false),
  overflowFloat: z.boolean().default(false),
  mainsPresent: z
    .boolean()
    .default(false)
    .describe('a contact that tells whether the supply of the pump has its mains'),
});

const sensors = z.strictObject({
  airTemperature: z.boolean(),
  humidity: z.boolean().default(false),
});

const hotDay = z.strictObject({
  minCelsius: z.number().min(-10).max(40),
  maxCelsius: z.number().min(5).max(55),
  humidityPercent: z.number().min(5).max(100).describe('mean over the day'),
});

const weather = z.strictObject({
  file: z.string().min(1).describe('an hourly CSV or an EPW file, path from the farm file'),
  columns: z
    .strictObject({
      time: z.string(),
      temperature: z.string(),
      humidity: z.string().optional(),
      sun: z.string().optional(),
      wind: z.string().optional(),
    })
    .optional()
    .describe('how the columns of a CSV are headed; an EPW file needs none'),
  temperatureUnit: z.enum(['celsius', 'fahrenheit']).default('celsius'),
  timeZone: z.string().refine(isTimeZone, { error: 'expected an IANA time zone' }).optional(),
});

const climateMonth = z.strictObject({
  minCelsius: z.number().min(-25).max(35).describe("mean of the days' lowest temperatures"),
  maxCelsius: z.number().min(-15).max(48).describe("mean of the days' highest temperatures"),
  humidityPercent: z.number().min(5).max(100).optional().describe('mean over the month, day and night'),
});

const climate = z.strictObject({
  monthly: z.array(climateMonth).length(12).describe('twelve months, January first'),
  spreadCelsius: z
    .number()
    .min(0)
    .max(6)
    .default(3)
    .describe('standard deviation of one day from the mean of its season; 3 is common practice, no source'),
  site: z.enum(['inland', 'coast']).describe('on a coast the same warmth goes with more sun'),
});

export const farmSchema = z.strictObject({
  farm: nameSchema,
  language: z
    .enum(LANGUAGES_SPOKEN)
    .default('en')
    .describe('in which alarms are told: en English, pt European Portuguese, es Spanish, fr French'),
  invented: z
    .strictObject({ today: date })
    .optional()
    .describe('only for demo farms: all data is invented, and this is its day; refused on a real board'),
  place,
  pump,
  tank: tankSchema,
  benches: z.array(bench).min(1).max(BENCHES_MAX),
  crops: z.record(nameKeySchema, crop).optional().describe('crops of your own, by name'),
  dayPlan: z.array(dayPart).min(1).max(DAY_PARTS_MAX),
  temperatureRule,
  bounds,
  stretch: stretch.default('never').describe('permission to rest longer than the plan when belief allows it'),
  floors: z
    .strictObject({ stress: within(LIMITS.stressFloor), wilt: within(LIMITS.wiltFloor) })
    .default({ stress: 0.5, wilt: 0.2 })
    .describe('fractions of held water'),
  evidence,
  sensors,
  hotDay,
  weather: weather.optional(),
  climate: climate.optional().describe('what the months are usually like; needed only to draw days from'),
  deadBoard: z
    .enum(['pump-stops', 'pump-runs', 'plain-timer'])
    .describe('what the pump does when the board is dead; wiring and firmware must agree'),
  outsideWatcher: outsideWatcherSchema,
  herald: heraldSchema.optional().describe('whom the host calls, and by what'),
  board: wiringSchema.optional().describe('which pin of the board carries what; needed to drive a real one'),
});

/** The farm file as the program holds it after parsing: defaults filled in, boundaries read. */
export type FarmFile = z.infer<typeof farmSchema>;
export type CropTraits = Readonly<z.infer<typeof crop>>;
