import { z } from 'zod';
import { isAlarmKind, soundCard, type Card, type KeptState } from '../../src/controller.ts';
import { FLOAT_UNWATCHED } from '../../src/sense/float-watch.ts';
import { STRENGTH_UNWATCHED } from '../../src/sense/strength-watch.ts';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';
import { PLATEAU_UNREAD } from '../../src/verify/flood.ts';
import { learned } from './kept-lessons-schema.ts';

/** More than these no controller ever keeps; a file that holds more is none of its own. */
const MANY = {
  alarms: 60,
  benches: 200,
  starts: 500,
  calls: 64,
  turns: 4,
  verdicts: 400,
  slopes: 3,
  holds: 20,
} as const;

const moment = z.number().transform(monotonicMillis);
const pastOrNull = moment.nullable();
const wall = z.union([z.literal('unknown'), z.number().transform(wallMillis)]);
const count = z.int().min(0);
const share = z.number().min(0).max(1);
const seen = z.enum(['seen', 'not-seen', 'unknown']);

const belief = z.object({
  at: moment,
  benches: z.array(z.object({ name: z.string(), theta: share, thetaLow: share })).max(MANY.benches),
});

const hold = z.object({ from: moment, until: moment, who: z.string() });

const tank = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('well') }),
  z.object({ kind: z.literal('low'), since: moment, lowAt: moment }),
  z.object({ kind: z.literal('float-suspect'), since: moment }),
  z.object({
    kind: z.literal('returning'),
    since: moment,
    shortFlood: z.literal('kept-still').exactOptional(),
  }),
]);

const tankTrend = z
  .object({
    slopes: z
      .array(
        z.object({
          at: moment,
          beyondLitresPerHour: z.number(),
          drunkLitresPerHour: z.number().min(0),
          // A file from before anybody asked who took it: none of its slopes calls the top-up stopped.
          fellLitresPerHour: z.number().default(0),
        }),
      )
      .max(MANY.slopes),
    last: z.object({ at: moment, litres: z.number().min(0) }).nullable(),
    course: z.enum(['well', 'falls', 'falls-soon-low']),
    unfilledLitres: z.number().min(0).nullable().default(null),
    fullMoments: count,
  })
  // A file from before there was a trend of the tank.
  .default({ slopes: [], last: null, course: 'well', unfilledLitres: null, fullMoments: 0 });

const guard = z.object({
  asked: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('off'), since: pastOrNull }),
    z.object({
      kind: z.literal('on'),
      since: moment,
      until: moment,
      purpose: z.enum(['flood', 'retry', 'sip']),
    }),
  ]),
  floodStarts: z.array(moment).max(MANY.starts),
});

const flood = z.object({
  id: count,
  part: z.string(),
  reason: z.string(),
  minutes: z.number().positive(),
  wantedMinutes: z.number().positive().exactOptional(),
  cut: z.object({ ofMinutes: z.number().positive(), why: z.string() }).exactOptional(),
  lagMinutes: z.number().positive(),
  tankTells: z.literal(true).exactOptional(),
  lackedLitres: z.number().min(0).default(0),
  startedAt: moment,
  retries: count,
  attemptAt: moment,
  phase: z.object({ kind: z.enum(['running', 'draining', 'pausing']), endsAt: moment }),
  lookedAt: moment,
  waterFirstAt: pastOrNull,
  goneSince: pastOrNull,
  waterMinutes: z.number().min(0),
  readMinutes: z.number().min(0),
  // Of a version that did not look: it can be read from now on.
  readableSince: pastOrNull.default(null),
  levelMinutes: z.number().min(0).default(0),
  contact: seen,
  current: seen,
  mains: seen,
  endLitresPerMinute: z.number().nullable(),
  // Of a version that read only its end.
  plateau: z.object({ litres: z.number().min(0), minutes: z.number().min(0) }).default(PLATEAU_UNREAD),
  // Of a version that did not look: it teaches as it did.
  returnAtStart: seen.default('unknown'),
  tankAtStart: z.number().nullable(),
  tankLowest: z.number().nullable(),
  unwatchedUntil: pastOrNull,
});

const alarmKind = z.string().refine(isAlarmKind, 'no alarm of this version');

/** What a later version may have added to it comes back as it was. */
const card = z
  .looseObject({
    kind: alarmKind,
    priority: z.enum(['high', 'medium', 'low']),
    cause: z.string(),
    consequence: z.string().nullable(),
    firstAction: z.string(),
  })
  .transform((kept) => soundCard(kept as Card));

const alarm = z.looseObject({
  state: z.enum(['active-unacknowledged', 'active-acknowledged', 'returned-unacknowledged', 'shelved']),
  raisedAt: moment,
  card,
  course: z.object({
    awaySince: pastOrNull,
    turns: z.array(moment).max(MANY.turns),
    chatteredAt: pastOrNull,
  }),
  shelf: z.object({ until: moment, who: z.string() }).nullable(),
});

const keptVoice = z.object({
  card,
  raisedAt: moment,
  // Of a version for which each raising was a new one.
  since: moment.exactOptional(),
  endedAt: pastOrNull.default(null),
  wavers: z.boolean().default(false),
  leftMinutes: z.number().nullable().default(null),
  phase: z.enum(['waiting', 'called', 'seen', 'over']),
  // Of a version that did not remember it.
  seenBy: z.string().nullable().default(null),
  rung: z.int().min(-1),
  calledAt: pastOrNull,
  dueAt: pastOrNull,
  unexplainedAt: pastOrNull,
});
const voice = keptVoice.transform((kept) => ({ ...kept, since: kept.since ?? kept.raisedAt }));

const calls = z.object({
  voices: z.array(voice).max(MANY.alarms),
  recent: z.array(z.object({ at: moment, stake: z.enum(['water', 'sensing', 'host']) })).max(MANY.calls),
});

const day = z.object({
  saidOn: z.string().nullable(),
  verdicts: z
    .array(
      z.object({ at: moment, kind: z.enum(['confirmed', 'degraded', 'unproven', 'missed', 'withheld']) }),
    )
    .max(MANY.verdicts),
});

const whySince = z.object({ why: z.string(), since: moment });

const side = z.enum(['usual', 'strong', 'weak']);

const memory = z.object({
  missed: z
    .object({
      contact: seen,
      current: seen,
      mains: seen,
      tankFell: seen,
      trickleLitresPerMinute: z.number().nullable(),
      startedAt: moment,
      stoppedAt: pastOrNull,
      deadline: moment,
      retries: count,
    })
    .nullable(),
  degraded: z
    .object({
      kind: z.literal('degraded'),
      says: z.string(),
      why: z.enum(['weak', 'cut-short', 'stopped']),
    })
    .nullable(),
  lastWaterAt: pastOrNull,
  unasked: z.null(),
  runsOn: whySince.nullable(),
  idleSince: pastOrNull,
  returnTrust: z.object({
    stuckSince: pastOrNull,
    oddSince: pastOrNull,
    oddTimes: z.array(moment).default([]),
    noneSince: pastOrNull,
    wetLong: z.boolean().default(false),
    unproven: z.boolean().default(false),
    drained: z.boolean().default(false),
    mostInRest: z.number().min(0).nullable().default(null),
  }),
  mains: z.object({ lostSince: pastOrNull, word: z.enum(['believed', 'denied']), restedSince: pastOrNull }),
  // Of a version that did not watch it: it counts from now on.
  float: z
    .object({
      low: z.boolean().nullable(),
      unmovedMinutes: z.number().min(0),
      lookedAt: pastOrNull,
      otherSince: pastOrNull,
    })
    .default(FLOAT_UNWATCHED),
  strength: z
    .object({
      is: side,
      read: z.object({ millisiemensPerCm: z.number(), at: moment }).nullable(),
      instead: z.object({ side, minutes: z.number().min(0) }).nullable(),
      lookedAt: pastOrNull,
    })
    .default(STRENGTH_UNWATCHED),
  lineGone: z.object({ since: moment, lastAt: moment }).nullable().default(null),
  airBadSince: pastOrNull,
  flowBadSince: pastOrNull,
  shut: z
    .object({
      since: moment,
      leftMinutes: z.number(),
      reason: z.string(),
      by: z.enum(['person', 'board', 'water']),
    })
    .nullable(),
});

/** A kept state as it comes from a disk: every number finite and in the range that it can have. */
export const keptSchema = z.object({
  at: z.object({ monotonic: moment, wall }),
  clock: z.object({
    startedAt: moment,
    offset: z.number().nullable(),
    goodOffset: z.number().nullable(),
    steppedAt: pastOrNull,
    // A file from before anybody asked what had set the clock does not say, which is no `false`.
    isUnset: z.boolean().exactOptional(),
    isConfirmed: z.boolean().default(false),
  }),
  keeper: z.enum(['keeps', 'none']),
  heardUntil: moment,
  linkDownSince: pastOrNull,
  belief,
  awayBelief: belief.nullable(),
  floorSigns: z
    .array(z.object({ channel: z.enum(['leak', 'overflow']), wet: z.boolean(), at: moment }))
    .max(2),
  schedule: z.object({
    // Below 0 where a flood of the board is longer than the plan's: its turn begins later.
    turn: z.number().max(1),
    turnAt: moment,
    turnMinutes: z.number().positive().nullable(),
    lastStart: pastOrNull,
    lastEnd: pastOrNull,
    owed: z.string().nullable(),
  }),
  hold: hold.nullable(),
  // Of a version that knew of one at a time.
  otherHolds: z.array(hold).max(MANY.holds).default([]),
  tank,
  tankTrend,
  sips: z.object({ count, lastAt: pastOrNull }),
  guard,
  flood: flood.nullable(),
  floodCount: count,
  learned,
  alarms: z.array(alarm).max(MANY.alarms),
  calls,
  day,
  memory,
}) satisfies z.ZodType<KeptState>;
