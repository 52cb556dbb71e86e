import { z } from 'zod';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';

const moment = z.number().transform(monotonicMillis);
/** More than these no herald ever keeps. */
const MANY = { alarms: 60, people: 64 } as const;
const call = z.strictObject({
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
const errand = z.strictObject({
  id: z.number(),
  form: z.enum(['ring', 'text', 'mail', 'post']),
  channel: z.string(),
  person: z.string().nullable(),
  tries: z.number(),
  dueAt: moment,
  endsAt: moment.nullable(),
});
const keptJob = z.strictObject({
  id: z.number(),
  key: z.string(),
  rank: z.number(),
  call: call.nullable(),
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
const told = z.strictObject({
  alarm: z.string(),
  round: names,
  called: names,
  reached: z.array(z.strictObject({ person: z.string(), at: moment, madeAt: moment })).max(MANY.people),
});
const health = z.strictObject({
  failures: z.number(),
  why: z.string(),
  since: moment.nullable(),
  checkAt: moment,
  checking: z.strictObject({ id: z.number(), endsAt: moment }).nullable(),
});
/** What the file of the herald holds; a version that wrote another shape is not believed. */
export const keptDelivery = z.strictObject({
  at: z.strictObject({
    monotonic: moment,
    wall: z.union([z.literal('unknown'), z.number().transform(wallMillis)]),
  }),
  state: z.strictObject({
    nextId: z.number(),
    jobs: z.array(job),
    health: z.record(z.string(), health),
    // Of a version that did not remember it.
    told: z.array(told).max(MANY.alarms).default([]),
    sentence: z.strictObject({ text: z.string(), at: moment }).nullable(),
  }),
});
