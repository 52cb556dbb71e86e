import { z } from 'zod';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';

/**
 * The parts that are what they are held for, each by itself: one that another version wrote otherwise must not take the calls
 * beside it away, of which the controller tells those that are not of high priority only once. What it added is left out.
 */
const readable =
  <Part>(part: z.ZodType<Part>) =>
  (written: unknown): readonly Part[] => {
    const read = part.safeParse(written);
    return read.success ? [read.data] : [];
  };

const moment = z.number().transform(monotonicMillis);
/** More than these no herald ever keeps. */
const MANY = { alarms: 60, people: 64 } as const;
const call = z.object({
  kind: z.enum(['raised', 'again', 'escalated', 'returned', 'all-well']),
  alarm: z.string().nullable(),
  // Of a version that did not say so.
  also: z.array(z.string()).max(MANY.alarms).default([]),
  seenBy: z.string().nullable().default(null),
  priority: z.enum(['high', 'medium', 'low']),
  text: z.string(),
  message: z.string(),
  rung: z.number(),
  minutesLeft: z.number().nullable(),
});
const errand = z.object({
  id: z.number(),
  form: z.enum(['ring', 'text', 'mail', 'post']),
  channel: z.string(),
  person: z.string().nullable(),
  tries: z.number(),
  ringsInVain: z.number().default(0),
  dueAt: moment,
  endsAt: moment.nullable(),
});
const keptJob = z.object({
  id: z.number(),
  key: z.string(),
  rank: z.number(),
  call: call.nullable(),
  text: z.string().nullable().default(null),
  opening: z.string().nullable().default(null),
  madeAt: moment.exactOptional(),
  untilAt: moment,
  replaced: z.boolean(),
  errands: z.array(errand),
  called: z.array(z.string()),
  reached: z.array(z.string()),
  next: z.array(z.string()),
  nextAt: moment,
});
/** Of a version that did not write when it was made: that was shortly before the next person was to be called. */
const job = keptJob.transform((kept) => ({ ...kept, madeAt: kept.madeAt ?? kept.nextAt }));
const names = z.array(z.string()).max(MANY.people);
const told = z.object({
  alarm: z.string(),
  round: names,
  called: names,
  reached: z.array(z.object({ person: z.string(), at: moment, madeAt: moment })).max(MANY.people),
});
const health = z.object({
  failures: z.number(),
  why: z.string(),
  since: moment.nullable(),
  wellBy: z.enum(['look', 'send']).default('look'),
  checkAt: moment,
  checking: z.object({ id: z.number(), endsAt: moment }).nullable(),
});
/** What the file of the herald holds. */
export const keptDelivery = z.object({
  at: z.object({
    monotonic: moment,
    wall: z.union([z.literal('unknown'), z.number().transform(wallMillis)]),
  }),
  // Of a version that did not write it.
  machine: z.object({ boot: z.string(), monotonic: moment }).nullable().catch(null),
  state: z.object({
    nextId: z.number(),
    jobs: z.array(z.unknown()).transform((jobs) => jobs.flatMap(readable(job))),
    health: z
      .record(z.string(), z.unknown())
      .transform((channels) =>
        Object.fromEntries(
          Object.entries(channels).flatMap(([name, each]) =>
            readable(health)(each).map((known) => [name, known] as const),
          ),
        ),
      ),
    // Of a version that did not remember it.
    told: z
      .array(z.unknown())
      .max(MANY.alarms)
      .transform((all) => all.flatMap(readable(told)))
      .catch([]),
    answered: z
      .record(z.string(), z.array(z.object({ kind: z.enum(['state', 'hint']), at: moment })))
      .catch({}),
    sentence: z.object({ text: z.string(), at: moment }).nullable().catch(null),
  }),
});
