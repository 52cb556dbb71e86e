import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Call } from '../../../src/delivery/call.ts';
import { deadChannels } from '../../../src/delivery/channel-health.ts';
import { JOBS_MAX } from '../../../src/delivery/delivery-bounds.ts';
import {
  ANA,
  BROKER,
  BY_DAY,
  BY_NIGHT,
  drive,
  FAILS,
  GSM,
  HANGS,
  HOOK,
  MAIL,
  nowAt,
  RAISED,
  RUI,
  settingsWith,
  told,
  WELL,
  type Conduct,
} from './virtual-network.ts';

const HOUR = 3600;
const MAINS_LOST: Call = { ...RAISED, alarm: 'mains-lost', minutesLeft: 9 };
const LONGEST_ATTEMPT_SECONDS = 75;

/** 0 for what cannot wait, 2 for what can. */
const urgency = ({ kind, priority }: Call): number =>
  kind === 'returned' || priority === 'low' ? 2 : priority === 'high' ? 0 : 1;

const call = fc
  .record<Omit<Call, 'message'>>({
    kind: fc.constantFrom('raised', 'again', 'escalated', 'returned'),
    alarm: fc.constantFrom('missed-flood', 'mains-lost', 'tank-low', 'weak-flow'),
    priority: fc.constantFrom('high', 'medium', 'low'),
    also: fc.constantFrom([], ['drying-out'], ['weak-flow']),
    seenBy: fc.constantFrom(null, 'Rui'),
    text: fc.uuid(),
    rung: fc.nat({ max: 3 }),
    minutesLeft: fc.constant(30),
  })
  .map((one): Call => ({ ...one, message: one.text }));
const script = fc.array(
  fc.record({
    atSeconds: fc.nat({ max: HOUR }),
    event: call.map((one) => ({ kind: 'tell' as const, call: one })),
  }),
  { minLength: 1, maxLength: 25 },
);
const conduct = fc.oneof(
  fc.constant(WELL),
  fc.constant(FAILS),
  fc.constant(HANGS),
  fc.nat({ max: 70 }).map((afterSeconds): Conduct => ({ ...WELL, afterSeconds }) as Conduct),
);
/** What each channel does, by the count of what it was asked. */
const conducts = fc.array(conduct, { minLength: 1, maxLength: 12 });
const channels = fc
  .subarray([GSM, MAIL, HOOK, BROKER], { minLength: 1 })
  .map((some) => settingsWith(some, [ANA, RUI]));
const start = fc.constantFrom(BY_DAY, BY_NIGHT);

describe('whatever the channels do', () => {
  it('each call is attempted within 5 s, or each of its channels is busy then with something as urgent', () => {
    fc.assert(
      fc.property(channels, conducts, script, start, (settings, how, calls, begins) => {
        const run = drive(settings, (_, __, count) => how[count % how.length]!, calls, 2 * HOUR, begins);
        for (const { atSeconds, event } of calls) {
          const soon = run.begun.filter(
            (begun) =>
              begun.atSeconds <= atSeconds + 5 && begun.atSeconds > atSeconds - LONGEST_ATTEMPT_SECONDS,
          );
          const attempted = soon.some(
            ({ message, atSeconds: begun }) => message.text === event.call.text && begun >= atSeconds,
          );
          // Under way already: a message of the same alarm, or one of a call that is as urgent.
          const busy = soon.some(
            ({ message }) =>
              message.call!.alarm === event.call.alarm || urgency(message.call!) <= urgency(event.call),
          );
          const told = run.heard.some(
            (heard) => heard.kind === 'failed' && heard.channel === 'none' && heard.call === event.call,
          );
          expect(attempted || busy || told).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('a call alone, of any priority, is attempted within 5 s on every channel that can carry it', () => {
    fc.assert(
      fc.property(channels, conducts, call, start, (settings, how, one, begins) => {
        const script = [{ atSeconds: 7, event: { kind: 'tell' as const, call: one } }];
        const run = drive(settings, (_, __, count) => how[count % how.length]!, script, HOUR, begins);
        const first = run.begun[0];
        const told = run.heard.some((heard) => heard.kind === 'failed' && heard.channel === 'none');
        expect(told || (first !== undefined && first.atSeconds - 7 <= 5)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it('a call of high priority is attempted within 5 s though each channel hangs with lesser ones', () => {
    fc.assert(
      fc.property(channels, fc.array(call, { maxLength: 10 }), start, (settings, lesser, begins) => {
        const before = lesser.map((one, place) => ({
          atSeconds: 60 + place,
          event: {
            kind: 'tell' as const,
            call: { ...one, alarm: 'weak-flow' as const, priority: 'low' as const },
          },
        }));
        const high = {
          kind: 'raised',
          alarm: 'mains-lost',
          also: [],
          seenBy: null,
          priority: 'high',
          text: 'HIGH',
          message: 'HIGH',
          rung: 0,
          minutesLeft: 9,
        } as const;
        const calls = [...before, { atSeconds: 75, event: { kind: 'tell' as const, call: high } }];
        const run = drive(settings, () => HANGS, calls, 200, begins);
        const first = run.begun.find(({ message }) => message.text === 'HIGH');
        expect(first!.atSeconds - 75).toBeLessThanOrEqual(5);
      }),
      { numRuns: 150 },
    );
  });

  it('no channel has more messages under way than it can bear, no more than 32 calls wait, and it never spins', () => {
    fc.assert(
      fc.property(channels, conducts, script, start, (settings, how, calls, begins) => {
        const run = drive(settings, (_, __, count) => how[count % how.length]!, calls, 3 * HOUR, begins);
        for (const { name, most } of settings.channels) {
          expect(run.most.get(name) ?? 0).toBeLessThanOrEqual(most);
        }
        expect(run.state.jobs.length).toBeLessThanOrEqual(JOBS_MAX);
        expect(run.ticks).toBeLessThan(20_000);
      }),
      { numRuns: 150 },
    );
  });

  it('attempts of one errand are never closer than 15 s, nor further apart than 300 s for an hour, and a quarter of an hour after it, while they fail', () => {
    fc.assert(
      fc.property(fc.constantFrom(GSM, MAIL, HOOK), start, (channel, begins) => {
        const calls = [told(MAINS_LOST, 0)];
        const run = drive(settingsWith([channel], [ANA]), () => FAILS, calls, 3 * HOUR, begins);
        for (const id of new Set(run.begun.map(({ message }) => message.id))) {
          const attempts = run.begun.filter(({ message }) => message.id === id);
          const gaps = attempts
            .slice(1)
            .map(({ atSeconds }, place) => atSeconds - attempts[place]!.atSeconds);
          expect(gaps.length).toBeGreaterThan(10);
          expect(Math.min(...gaps)).toBeGreaterThanOrEqual(15);
          // The channel may be busy with another errand for a moment.
          expect(Math.max(...gaps.slice(0, 16))).toBeLessThanOrEqual(305);
          expect(Math.max(...gaps)).toBeLessThanOrEqual(905);
        }
      }),
    );
  });

  it('the second person is tried within 90 s, and the time of one attempt, of a high call that reaches nobody', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(FAILS, HANGS),
        fc.constantFrom(GSM, MAIL),
        start,
        (how, channel, begins) => {
          const calls = [told(MAINS_LOST, 0)];
          const run = drive(settingsWith([channel]), () => how, calls, HOUR, begins);
          const second = run.begun.find(({ message }) => message.to?.name === 'Rui');
          expect(second!.atSeconds).toBeLessThanOrEqual(90 + 75);
        },
      ),
    );
  });

  it('when all fail or hang all are in the dead list within 6 min of a high call, and trying goes on', () => {
    fc.assert(
      fc.property(channels, fc.constantFrom(FAILS, HANGS), start, (settings, how, begins) => {
        const calls = [told(MAINS_LOST, 0)];
        const run = drive(settings, () => how, calls, 360, begins);
        expect(
          deadChannels(run.state, nowAt(360).monotonic)
            .map(({ name }) => name)
            .toSorted(),
        ).toEqual(settings.channels.map(({ name }) => name).toSorted());
        expect(run.state.jobs).toHaveLength(1);
      }),
    );
  });

  it('once the channels are well again each call of the last minute is delivered', () => {
    fc.assert(
      fc.property(conducts, call, start, (how, one, begins) => {
        const settings = settingsWith([GSM, MAIL, HOOK, BROKER]);
        const calls = [
          { atSeconds: 0, event: { kind: 'tell' as const, call: { ...one, priority: 'high' as const } } },
        ];
        const run = drive(
          settings,
          (_, at, count) => (at < 600 ? how[count % how.length]! : WELL),
          calls,
          1000,
          begins,
        );
        const through = run.heard
          .filter(({ kind }) => kind === 'delivered')
          .map((heard) => (heard as { channel: string }).channel);
        expect(new Set(through)).toEqual(new Set(settings.channels.map(({ name }) => name)));
        expect(run.state.jobs).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });
});
