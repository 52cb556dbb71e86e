import { z } from 'zod';
import { nameSchema } from './name-schema.ts';

/**
 * Whom the host calls, and by what. No secret stands here: `herald-checks` says where they belong. Every part may
 * be left out; a farm without this section is told by lamp, buzzer and status alone.
 */
export const PEOPLE_MAX = 8;
export const WEBHOOKS_MAX = 4;
/** The daily message goes unasked; at this local clock time where the farm file names none. Common practice, no source. */
export const ALL_WELL_AT = '07:30';

/** ITU-T E.164 (11/2010), 6: at most 15 digits, the country code first, which never begins with 0. */
export const E164 = /^\+[1-9]\d{6,14}$/;
const CLOCK_TIME = /^(?:[01]\d|2[0-3]):[0-5]\d$/;
/** So that no list, no second header line and no second recipient hides in an address (RFC 5321, 4.1.2). */
const ADDRESS = /^[^\s@,;<>"]{1,64}@[A-Za-z0-9](?:[A-Za-z0-9.-]{0,251}[A-Za-z0-9])?$/;
const HOST = /^[A-Za-z0-9](?:[A-Za-z0-9.:-]{0,251}[A-Za-z0-9])?$/;
const TOPIC = /^[^\s+#/$][^\s+#]{0,98}[^\s+#/]$/;

const text = (pattern: RegExp, words: string): z.ZodString =>
  z
    .string()
    .regex(pattern, { error: `expected ${words}` })
    .meta({ description: words });

const clockTime = text(CLOCK_TIME, 'a local clock time such as "07:30"');
const hours = z.strictObject({ from: clockTime, to: clockTime });

export const WEEK_DAYS = [
  'monday',
  'tuesday',
  'wednesday',
  'thursday',
  'friday',
  'saturday',
  'sunday',
] as const;

const person = z.strictObject({
  name: nameSchema,
  phone: text(E164, 'a phone number with its country code, such as "+351912345678"').optional(),
  email: text(ADDRESS, 'an e-mail address').optional(),
  days: z
    .array(z.enum(WEEK_DAYS))
    .min(1)
    .max(WEEK_DAYS.length)
    .optional()
    .describe('called first on these days only; on others last'),
  hours: hours.optional().describe('called first within these hours only; in others last'),
});

const modem = z.strictObject({
  port: z
    .string()
    .regex(/^\/dev\/[\w./:-]{1,200}$/, { error: 'expected a port such as /dev/serial/by-id/…' })
    .describe('the AT port of the modem; one under /dev/serial/by-id stays the same'),
});

const mail = z.strictObject({
  host: text(HOST, 'the name of a mail server'),
  port: z.number().int().min(1).max(65_535).default(465),
  security: z
    .enum(['tls', 'starttls', 'none'])
    .default('tls')
    .describe(
      'tls from the first byte (465), starttls or nothing (587); none only to a server on this machine',
    ),
  from: text(ADDRESS, 'an e-mail address'),
  user: z
    .string()
    .min(1)
    .max(254)
    .optional()
    .describe('the name to log in with; the password stands elsewhere'),
});

const webhook = z.strictObject({
  name: text(/^[a-z][a-z0-9-]{0,19}$/, 'a short name of small letters, digits and dashes'),
  url: text(/^https?:\/\/[^\s]{1,500}$/, 'an address that begins with https://')
    .refine((url) => URL.canParse(url), { error: 'expected an address with a name and a port that can be' })
    .optional()
    .describe('left out where the address itself is a secret'),
});

const broker = z.strictObject({
  url: text(/^mqtts?:\/\/[^\s]{1,300}$/, 'a broker such as mqtts://broker.example.org').refine(
    (url) => URL.canParse(url),
    {
      error: 'expected a broker with a name and a port that can be',
    },
  ),
  topic: text(TOPIC, 'the beginning of a topic, such as farms/hill, without + and #'),
  user: z
    .string()
    .min(1)
    .max(254)
    .optional()
    .describe('the name to log in with; the password stands elsewhere'),
});

export const heraldSchema = z.strictObject({
  people: z.array(person).max(PEOPLE_MAX).default([]).describe('in the order in which they are called'),
  night: hours
    .default({ from: '21:00', to: '07:00' })
    .describe('what is of high priority then rings the phone first'),
  modem: modem.optional(),
  mail: mail.optional(),
  webhooks: z.array(webhook).max(WEBHOOKS_MAX).default([]),
  broker: broker.optional(),
  allWellAt: clockTime
    .default(ALL_WELL_AT)
    .describe('when the daily message goes, so that silence means trouble; none while an alarm stands'),
});

/** Who notices when everything here is dark. */
export const outsideWatcherSchema = z.union([
  z.literal('nobody'),
  z.strictObject({
    who: z.string().trim().min(1).max(120).describe('who notices when the host falls silent'),
    by: z
      .enum(['broker', 'second-phone', 'web-check'])
      .optional()
      .describe('what tells them; left out: they expect the daily message'),
  }),
]);

export type HeraldFile = z.infer<typeof heraldSchema>;
