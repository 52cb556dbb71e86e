import { z } from 'zod';

/** More than these no controller ever keeps. */
const LESSONS_MAX = 15;
const PLATEAUS_MAX = 5;
const LENGTHS_MAX = 60;

const plateau = z
  .object({
    lengths: z
      .array(
        z.object({
          minutes: z.number().min(0),
          litresPerMinute: z.array(z.number().min(0)).max(PLATEAUS_MAX),
          bestLitresPerMinute: z.number().min(0),
        }),
      )
      .max(LENGTHS_MAX),
    last: z
      .array(
        z.object({
          litresPerMinute: z.number().min(0),
          // Of a version that did not count it.
          takenLitresPerMinute: z.number().min(0).default(0),
          bestLitresPerMinute: z.number().positive(),
        }),
      )
      .max(PLATEAUS_MAX),
    lower: z.boolean(),
  })
  // Of a version that did not watch it: it learns from now on.
  .default({ lengths: [], last: [], lower: false });

/** What floods have taught. */
export const learned = z.object({
  lagMinutes: z.array(z.number().min(0)).max(LESSONS_MAX),
  // Of a version that did not keep their lengths: it learns from now on.
  endFlows: z
    .array(z.object({ minutes: z.number().min(0), litresPerMinute: z.number().min(0) }))
    .max(LESSONS_MAX)
    .default([]),
  bestLitresPerMinute: z.number().min(0),
  plateau,
  // Of a version that did not count them.
  tankFalls: z.int().min(0).default(0),
  byFarmFile: z.number().positive().nullable().default(null),
});
