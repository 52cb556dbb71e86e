import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isActive, type Alarm } from '../../../src/alarm/alarm.ts';
import type { AlarmKind } from '../../../src/alarm/card.ts';
import { againMinutes, escalationMinutes, type Pace } from '../../../src/alarm/escalation.ts';
import { speaker } from '../../../src/alarm/grouping.ts';
import { shelving } from '../../../src/alarm/shelving.ts';
import { isOnWater } from '../../../src/alarm/stakes.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { calledOn, type CalledOn, type CallMade } from './called-on.ts';
import { cardOf, KINDS } from './made-alarms.ts';

/** What may happen at any moment, in any order. */
type Act =
  | { readonly kind: 'stands'; readonly kinds: readonly AlarmKind[] }
  | { readonly kind: 'acknowledge' | 'shelve'; readonly alarm: AlarmKind; readonly minutes: number }
  | { readonly kind: 'left'; readonly minutes: number }
  | { readonly kind: 'wait'; readonly minutes: number };

const paceOf = (left: number): Pace => ({ minutesLeft: () => left, isLost: () => false });
const kind = fc.constantFrom(...KINDS);
const minutes = fc.oneof(
  fc.integer({ min: 0, max: 120 }),
  fc.integer({ min: 0, max: 60 }).map((seconds) => seconds / 60),
);
const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ kind: fc.constant('wait' as const), minutes }) },
  {
    weight: 3,
    arbitrary: fc.record({
      kind: fc.constant('stands' as const),
      kinds: fc.uniqueArray(kind, { maxLength: 5 }),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constantFrom('acknowledge' as const, 'shelve' as const),
      alarm: kind,
      minutes,
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ kind: fc.constant('left' as const), minutes: fc.integer({ min: 0, max: 1440 }) }),
  },
);

interface Moment {
  readonly act: Act;
  /** The conditions as last looked at: only a wait looks. */
  readonly standing: readonly AlarmKind[];
  readonly before: readonly Alarm[];
  readonly after: readonly Alarm[];
}

const played = (acts: readonly Act[]): { readonly shed: CalledOn; readonly moments: readonly Moment[] } => {
  const shed = calledOn();
  const moments: Moment[] = [];
  let standing: readonly AlarmKind[] = [];
  let looked: readonly AlarmKind[] = [];
  for (const one of acts) {
    const before = shed.alarms();
    switch (one.kind) {
      case 'stands':
        standing = one.kinds;
        shed.stands(...standing);
        break;
      case 'acknowledge':
        shed.acknowledge(one.alarm);
        break;
      case 'shelve': {
        const now = monotonicMillis(shed.now() * 60_000);
        const asked = { alarm: one.alarm, minutes: one.minutes, who: 'Ana' };
        // As the controller does it: only what is not refused is put off.
        const done = shelving(shed.alarms(), asked, shed.minutesLeft, now);
        if (done.kind === 'shelved')
          shed.shelve(one.alarm, Math.min(one.minutes, shed.minutesLeft() / 2, 480));
        break;
      }
      case 'left':
        shed.left(one.minutes);
        break;
      case 'wait':
        looked = standing;
        shed.until(shed.now() + one.minutes);
        break;
    }
    moments.push({ act: one, standing: looked, before, after: shed.alarms() });
  }
  return { shed, moments };
};

const holds = (law: (run: ReturnType<typeof played>) => void): void => {
  fc.assert(
    fc.property(fc.array(act, { minLength: 5, maxLength: 60 }), (acts) => {
      law(played(acts));
    }),
    { numRuns: 200 },
  );
};
const has = (alarms: readonly Alarm[], alarm: AlarmKind): boolean =>
  alarms.some(({ card }) => card.kind === alarm);

describe('alarms, whatever happens', () => {
  it('are all in the list while their condition stands, called or not, explained or not', () => {
    holds(({ moments }) => {
      for (const { act: one, standing, after } of moments) {
        if (one.kind !== 'wait') continue;
        for (const alarm of standing) expect(has(after.filter(isActive), alarm)).toBe(true);
      }
    });
  });

  it('leave the list only once their condition has gone, and one that was not acknowledged only by a person', () => {
    holds(({ moments }) => {
      for (const { act: one, standing, before, after } of moments) {
        for (const alarm of before) {
          if (has(after, alarm.card.kind)) continue;
          expect(standing).not.toContain(alarm.card.kind);
          if (alarm.state.endsWith('-unacknowledged')) expect(one.kind).toBe('acknowledge');
        }
      }
    });
  });

  it('are acknowledged and put off only by a person', () => {
    holds(({ moments }) => {
      for (const { act: one, before, after } of moments) {
        for (const { card, state } of after) {
          const was = before.find((alarm) => alarm.card.kind === card.kind)?.state;
          if (state === was) continue;
          if (state === 'active-acknowledged')
            expect(one).toMatchObject({ kind: 'acknowledge', alarm: card.kind });
          if (state === 'shelved') expect(one).toMatchObject({ kind: 'shelve', alarm: card.kind });
        }
      }
    });
  });

  it('are never put off where they are about water, and never for more than 8 h', () => {
    holds(({ moments }) => {
      for (const { after } of moments) {
        for (const { card, state, shelf } of after) {
          expect((state === 'shelved') === (shelf !== null)).toBe(true);
          if (state === 'shelved') expect(isOnWater(card.kind)).toBe(false);
        }
      }
    });
  });

  it('keep the order in which they were raised, one of each kind', () => {
    holds(({ moments }) => {
      for (const { after } of moments) {
        const raised = after.map(({ raisedAt }) => raisedAt);
        expect(raised).toEqual(raised.toSorted((a, b) => a - b));
        expect(new Set(after.map(({ card }) => card.kind)).size).toBe(after.length);
      }
    });
  });
});

/** A call that says of this alarm that it stands: its own, or one that names it. */
const speaksFor = ({ alarm, also, kind: is }: CallMade, wanted: AlarmKind): boolean =>
  is !== 'returned' && (alarm === wanted || also.includes(wanted));

/** What explains another alarm may be on its way out meanwhile: of wet floors it takes longest. */
const DEADBAND_MINUTES_MAX = 5;
/** The controller calls itself at most once a second. */
const SECOND = 1 / 60;

describe('calls, whatever happens', () => {
  it('are made at once for each high alarm that speaks for itself, and never later than their bound after that', () => {
    holds(({ shed }) => {
      // From the last act on nothing happens: whoever is to be called is.
      const from = shed.now();
      shed.until(from);
      const tail = shed.alarms();
      const left = shed.minutesLeft();
      shed.until(from + 36);
      for (const alarm of tail) {
        // One whose condition is away already may return before its next call is due.
        if (alarm.course.awaySince !== null || alarm.card.priority !== 'high') continue;
        if (alarm.state !== 'active-unacknowledged') continue;
        if (speaker(shed.alarms(), alarm).card.kind !== alarm.card.kind) continue;
        const spoken = shed.calls().filter((call) => speaksFor(call, alarm.card.kind) && call.at >= from);
        // Where it has just lost what explained it, it may take a quarter of the time left, and at least 10 min.
        const bound = DEADBAND_MINUTES_MAX + Math.max(10, Math.min(30, left / 4)) + SECOND;
        expect(spoken.some(({ at }) => at <= from + bound)).toBe(true);
      }
    });
  });

  it('follow each other for an alarm that nobody answers within min(10 min, a quarter of the time left), at least 1 min and later 5, and 1 s', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1440 }),
        fc.array(fc.record({ wait: minutes, left: fc.integer({ min: 0, max: 1440 }) }), { maxLength: 20 }),
        (start, changes) => {
          const shed = calledOn();
          shed.left(start);
          shed.stands('tank-low');
          shed.until(0);
          for (const { wait, left } of changes) {
            // Whatever the time left becomes, the next call is due a quarter of it from here at the latest.
            shed.left(left);
            shed.until(shed.now());
            const from = shed.now();
            const bound = escalationMinutes(paceOf(left), shed.calls().at(-1)!.rung) + SECOND;
            shed.until(from + wait);
            const next = shed.calls().find(({ at }) => at >= from);
            if (wait >= bound) expect(next!.at - from).toBeLessThanOrEqual(bound);
          }
          const rungs = shed.calls().map(({ rung }) => rung);
          expect(rungs).toEqual(rungs.map((_, place) => place));
        },
      ),
      { numRuns: 200 },
    );
  });

  it('come again for an acknowledged one at half of the time then left at the latest, and 1 s', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ wait: minutes, left: fc.integer({ min: 0, max: 600 }) }), { maxLength: 20 }),
        (changes) => {
          const shed = calledOn();
          shed.stands('tank-low');
          shed.until(0);
          shed.acknowledge('tank-low');
          for (const { wait, left } of changes) {
            shed.left(left);
            shed.until(shed.now());
            const from = shed.now();
            const bound = againMinutes(cardOf('tank-low'), paceOf(left)) + SECOND;
            shed.until(from + wait);
            const next = shed.calls().find(({ at, kind: is }) => is === 'again' && at >= from);
            if (wait >= bound) expect(next!.at - from).toBeLessThanOrEqual(bound);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it('remember a bounded number of things, as plain data', () => {
    holds(({ shed }) => {
      const kept = shed.kept();
      expect(kept.voices.length).toBeLessThanOrEqual(KINDS.length);
      expect(kept.recent.length).toBeLessThanOrEqual(64);
      expect(JSON.parse(JSON.stringify({ kept, alarms: shed.alarms() }))).toEqual({
        kept,
        alarms: shed.alarms(),
      });
    });
  });
});
