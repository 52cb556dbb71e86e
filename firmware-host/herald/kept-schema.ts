import { z } from 'zod';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';

const moment = z.number().transform(monotonicMillis);
const call = z.strictObject({
  kind: z.enum(['raised', 'again', 'escalated', 'returned', 'all-well']),
  alarm: z.string().nullable(),
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
  ringsInVain: z.number().default(0),
  dueAt: moment,
  endsAt: moment.nullable(),
});
const job = z.strictObject({
  id: z.number(),
  key: z.string(),
  rank: z.number(),
  call: call.nullable(),
  untilAt: moment,
  replaced: z.boolean(),
  errands: z.array(errand),
  called: z.array(z.string()),
  reached: z.array(z.string()),
  next: z.array(z.string()),
  nextAt: moment,
});
const health = z.strictObject({
  failures: z.number(),
  why: z.string(),
  since: moment.nullable(),
  wellBy: z.enum(['look', 'send']).default('look'),
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
    sentence: z.strictObject({ text: z.string(), at: moment }).nullable(),
  }),
});
