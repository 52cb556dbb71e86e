import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keptText, readKept } from '../../../firmware-host/storage/kept-state.ts';
import { begin, keptState, resumed, step, type KeptState } from '../../../src/controller.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';
import { at, seen, toldFrom } from '../controller/noon.ts';

const NOON = utc('2026-07-14T11:00Z');

/** After a missed flood, so that there is an alarm, a clue and a debt in it. */
const kept = (): KeptState => {
  const told = toldFrom(exampleFarm);
  told.tell(0, seen(0));
  told.lookOn(40, () => [{ channel: 'return-flow', litresPerMinute: 0 }]);
  return keptState(told.state(), at(40));
};
const KEPT = kept();
const TEXT = keptText(KEPT, 'a');

describe('a state that is kept', () => {
  it('comes back as it was, alarms and all', () => {
    expect(KEPT.alarms.map(({ card }) => card.kind)).toContain('missed-flood');
    expect(readKept(TEXT)).toEqual({ kind: 'found', stored: { version: 1, boot: 'a', state: KEPT } });
  });

  it('is none where nothing was kept', () => {
    expect(readKept(null)).toEqual({ kind: 'none' });
  });

  it.each([
    ['half written', TEXT.slice(0, TEXT.length / 2)],
    ['empty', ''],
    ['of another version', TEXT.replace('"version":1', '"version":2')],
    ['of something else', '[1, 2, 3]'],
    ['with a number that cannot be', TEXT.replace(/"theta":[\d.]+/, '"theta":7')],
    ['with a number that is none', TEXT.replace(/"turn":[\d.]+/, '"turn":null')],
    ['with a moment out of all range', TEXT.replace(/"turnAt":[\d.]+/, '"turnAt":1e999')],
    ['with an alarm of no kind', TEXT.replace('"kind":"missed-flood"', '"kind":"moon"')],
  ])('that is %s is not used, and says why', (_, text) => {
    expect(text).not.toBe(TEXT);
    const read = readKept(text);
    expect(read.kind).toBe('unusable');
    expect(read.kind === 'unusable' ? read.why.length : 0).toBeGreaterThan(0);
  });

  it('of a version for which each raising of an alarm was a new one is gone on from', () => {
    const { voices } = KEPT.calls;
    expect(voices.length).toBeGreaterThan(0);
    const since = ['since', 'endedAt', 'wavers', 'leftMinutes', 'seenBy'];
    const old = JSON.parse(TEXT) as { state: { calls: { voices: Record<string, unknown>[] } } };
    old.state.calls.voices = old.state.calls.voices.map((voice) =>
      Object.fromEntries(Object.entries(voice).filter(([key]) => !since.includes(key))),
    );
    const read = readKept(JSON.stringify(old));
    expect(read.kind === 'found' ? read.stored.state.calls.voices : null).toEqual(
      voices.map((voice) => ({ ...voice, since: voice.raisedAt, leftMinutes: null })),
    );
  });

  it('of a version that did not ask who took the water of the tank is gone on from: no top-up is called stopped', () => {
    const slope = { at: minute(1), beyondLitresPerHour: 60, drunkLitresPerHour: 20 };
    const tankTrend = {
      slopes: [slope],
      last: { at: minute(1), litres: 300 },
      course: 'falls',
      fullMoments: 0,
    };
    const old = JSON.parse(TEXT) as { state: Record<string, unknown> };
    const read = readKept(JSON.stringify({ ...old, state: { ...old.state, tankTrend } }));
    expect(read.kind === 'found' ? read.stored.state.tankTrend : null).toEqual({
      ...tankTrend,
      slopes: [{ ...slope, fellLitresPerHour: 0 }],
      unfilledLitres: null,
    });
  });

  it('keeps what a later version may have added to an alarm', () => {
    const read = readKept(TEXT.replace('"raisedAt":', '"added":5,"raisedAt":'));
    expect(read.kind === 'found' ? read.stored.state.alarms[0] : null).toMatchObject({ added: 5 });
  });

  it('cut at any letter, or with any letter changed, never throws, and what is found can be gone on from', () => {
    const now: Now = { monotonic: minute(45), wall: wallMillis(NOON + 45 * 60_000) };
    fc.assert(
      fc.property(
        fc.nat({ max: TEXT.length - 1 }),
        fc.option(fc.constantFrom('"', '0', '9', '-', 'e', '{', '}', ',', 'n')),
        fc.oneof(fc.constant('unknown' as const), fc.double({ min: -10, max: 1e6, noNaN: true })),
        (place, letter, away) => {
          const text =
            letter === null
              ? TEXT.slice(0, place)
              : `${TEXT.slice(0, place)}${letter}${TEXT.slice(place + 1)}`;
          const read = readKept(text);
          if (read.kind !== 'found') return;
          const state = resumed(exampleFarm, read.stored.state, now, away, { kind: 'up' });
          const first = step(exampleFarm, state, { kind: 'time' }, now);
          expect(first.commands.map(({ kind }) => kind)).toEqual(['pump-off']);
          expect(first.wake).toBeLessThanOrEqual(now.monotonic + 300_000);
          expect(first.state.schedule.lastEnd ?? 0).toBeLessThanOrEqual(now.monotonic);
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe('a start of the machine with a monotonic clock that begins anew', () => {
  it('gives the state of one whose clock went on, moved by the difference of the two', () => {
    const state = keptState(begin(exampleFarm, at(40), { kind: 'up' }), at(40));
    const one = resumed(exampleFarm, { ...KEPT, clock: state.clock }, at(70), 30, { kind: 'up' });
    const moved: Now = { monotonic: minute(2), wall: at(70).wall };
    const other = resumed(exampleFarm, { ...KEPT, clock: state.clock }, moved, 30, { kind: 'up' });
    const shift = minute(70) - minute(2);
    expect(other.schedule.lastEnd! + shift).toBeCloseTo(one.schedule.lastEnd!, 3);
    expect(other.alarms[0]!.raisedAt + shift).toBeCloseTo(one.alarms[0]!.raisedAt, 3);
    expect(other.memory.missed!.startedAt + shift).toBeCloseTo(one.memory.missed!.startedAt, 3);
    for (const [place, { theta }] of one.belief.benches.entries()) {
      expect(other.belief.benches[place]!.theta).toBeCloseTo(theta, 9);
    }
  });
});
