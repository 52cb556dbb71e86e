import fc from 'fast-check';
import type { Event } from '../../../src/controller.ts';
import type { Sample } from '../../../src/ports/sample.ts';
import { between } from '../../support/between.ts';

/** What happens next to a controller, and when. */
export type Next = { readonly gap: Gap } & (
  | { readonly kind: 'seen'; readonly all: readonly { readonly said: Said; readonly age: number }[] }
  | { readonly kind: 'order'; readonly event: Event }
  /** The host's wall clock steps, or is lost. */
  | { readonly kind: 'wall'; readonly wall: number | 'unknown' }
);

type Said = Sample extends infer One ? (One extends Sample ? Omit<One, 'at'> : never) : never;

/** The moment that the controller asked for, or milliseconds from the moment before. */
type Gap = 'wake' | number;

const gap: fc.Arbitrary<Gap> = fc.oneof(
  { weight: 6, arbitrary: fc.constant('wake' as const) },
  { weight: 1, arbitrary: fc.constant(0) },
  { weight: 3, arbitrary: fc.integer({ min: 1, max: 40 * 60_000 }) },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 30 * 3_600_000 }) },
);

/** Whatever a broken sensor may say: the whole range of numbers, and what a well one says, more often. */
const reading = (least: number, most: number): fc.Arbitrary<number> =>
  fc.oneof(
    { weight: 5, arbitrary: between(least, most) },
    { weight: 1, arbitrary: fc.double() },
    { weight: 1, arbitrary: fc.constantFrom(-127, 85, 0, NaN, Infinity, -Infinity) },
  );

const said: fc.Arbitrary<Said> = fc.oneof(
  fc.record({ channel: fc.constant('air-temperature' as const), celsius: reading(5, 45) }),
  fc.record({ channel: fc.constant('humidity' as const), percent: reading(10, 100) }),
  fc.record({ channel: fc.constant('return-flow' as const), litresPerMinute: reading(0, 45) }),
  fc.record({ channel: fc.constant('return-switch' as const), flowing: fc.boolean() }),
  fc.record({ channel: fc.constant('pump-current' as const), drawing: fc.boolean() }),
  fc.record({ channel: fc.constant('relay-read-back' as const), closed: fc.boolean() }),
  fc.record({ channel: fc.constant('tank-level' as const), litres: reading(0, 600) }),
  fc.record({ channel: fc.constant('tank-float' as const), low: fc.boolean() }),
  fc.record({ channel: fc.constant('leak' as const), wet: fc.boolean() }),
  fc.record({ channel: fc.constant('overflow' as const), wet: fc.boolean() }),
);

/** Mostly of this moment; sometimes old, and sometimes from the future. */
const age = fc.oneof(
  { weight: 6, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: fc.integer({ min: -3_600_000, max: 3_600_000 }) },
);

const seen: fc.Arbitrary<Next> = fc.record({
  kind: fc.constant('seen' as const),
  gap,
  all: fc.array(fc.record({ said, age }), { maxLength: 8 }),
});

const TIME = fc.constant<Event>({ kind: 'time' });
const WHO = fc.constantFrom('Ana', 'Rui');

const event: fc.Arbitrary<Event> = fc.oneof(
  fc.record({
    kind: fc.constant('hold' as const),
    minutes: fc.oneof(fc.integer({ min: 1, max: 600 }), fc.constantFrom(0, -5, NaN, Infinity, 1e9)),
    who: WHO,
  }),
  fc.record({ kind: fc.constant('release' as const), who: WHO }),
  fc.record({ kind: fc.constant('flood-now' as const), who: WHO }),
  fc.record({
    kind: fc.constant('acknowledge' as const),
    alarm: fc.constantFrom('missed-flood', 'tank-low', 'clock-stepped', 'pump-runs-on'),
    who: WHO,
  }),
);

/** From 1970 to the year 2400, and steps that matter more often. */
const wall = fc.oneof(
  fc.constant('unknown' as const),
  fc.integer({ min: 0, max: Date.UTC(2400, 0, 1) }),
  fc.integer({ min: Date.UTC(2026, 6, 13), max: Date.UTC(2026, 6, 16) }),
);

export const happenings: fc.Arbitrary<readonly Next[]> = fc.array(
  fc.oneof(
    { weight: 8, arbitrary: seen },
    { weight: 4, arbitrary: fc.record({ kind: fc.constant('order' as const), gap, event: TIME }) },
    { weight: 2, arbitrary: fc.record({ kind: fc.constant('order' as const), gap, event }) },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant('wall' as const), gap, wall }) },
  ),
  { minLength: 20, maxLength: 70 },
);
