import { join } from 'node:path';
import { z } from 'zod';
import { readWhole, writeWhole } from '../storage/atomic-file.ts';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';
import type { KeptDelivery } from './delivery-restart.ts';

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
  checkAt: moment,
  checking: z.strictObject({ id: z.number(), endsAt: moment }).nullable(),
});
const kept = z.strictObject({
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

export const deliveryFile = (folder: string): string => join(folder, 'delivery.json');

/** What was on its way when the last process ended; null where nothing is kept that can be believed. */
export const readDelivery = async (folder: string): Promise<KeptDelivery | null> => {
  try {
    const text = await readWhole(deliveryFile(folder));
    const read = text === null ? null : kept.safeParse(JSON.parse(text));
    // An alarm of another version is no alarm here; its kind is only ever compared and handed back.
    return read?.success === true ? (read.data as KeptDelivery) : null;
  } catch {
    // Unreadable is as good as none: the controller tells again what still stands.
    return null;
  }
};

/** @throws Error of the file system */
export const writeDelivery = (folder: string, delivery: KeptDelivery): Promise<void> =>
  writeWhole(deliveryFile(folder), JSON.stringify(delivery));
