import { describe, expect, it } from 'vitest';
import type { ClockSource } from '../../../firmware-host/start/clock-source.ts';
import type { Found, OpenedJournal } from '../../../firmware-host/storage/journal/journal.ts';
import { keptText } from '../../../firmware-host/storage/kept-state.ts';
import { createPast } from '../../../firmware-host/upkeep/past.ts';
import { begin, keptState, step } from '../../../src/controller.ts';
import { asUnset } from '../../../src/time/clock-trust.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';

const NOON = utc('2026-07-14T11:00Z');
const at = (minutes: number): Now => ({
  monotonic: minute(minutes),
  wall: wallMillis(NOON + minutes * 60_000),
});
const UP = { kind: 'up' } as const;
const KEPT = keptState(
  step(exampleFarm, begin(exampleFarm, at(0), UP), { kind: 'time' }, at(1)).state,
  at(1),
);

interface Start {
  readonly kept?: string | null;
  readonly late?: Promise<Found>;
  readonly source?: ClockSource;
}
const found = (kept: string | null): Found => ({ lastSeq: 1, setAside: null, keptState: kept }) as Found;

const pastOf = ({ kept = null, late, source = 'unknown' }: Start): ReturnType<typeof createPast> =>
  createPast({
    farm: exampleFarm,
    journal: { found: found(kept), late: late ?? null } as OpenedJournal,
    boot: 'this',
    source,
    leftBehind: 'nothing',
    talk: () => undefined,
  });
/** The same by a version that did not ask what had set the clock. */
const unasked = (boot: string): string =>
  JSON.stringify(JSON.parse(keptText(KEPT, boot)), (key, value: unknown) =>
    key === 'isUnset' || key === 'isConfirmed' ? undefined : value,
  );
const unsetAfter = (start: Start): boolean => pastOf(start).begun(at(600), UP).clock.isUnset;

describe('the clock of a host that goes on after another start of the machine', () => {
  const another = keptText(KEPT, 'another');

  it('is in doubt where nothing is known to have set it', () => {
    expect(unsetAfter({ kept: another })).toBe(true);
  });

  it.each(['network', 'battery-clock'] as const)('is believed where a %s has', (source) => {
    expect(unsetAfter({ kept: another, source })).toBe(false);
  });
});

describe('that of a host after the same start of the machine', () => {
  it('is what the host before it thought of it', () => {
    expect(unsetAfter({ kept: keptText(KEPT, 'this') })).toBe(false);
    const doubted = { ...KEPT, clock: asUnset(KEPT.clock) };
    expect(unsetAfter({ kept: keptText(doubted, 'this') })).toBe(true);
  });
});

describe('that of a host of the same start whose version before did not ask what had set it', () => {
  it('is in doubt where nothing is known to have: that version believed it after each power cut', () => {
    expect(unsetAfter({ kept: unasked('this') })).toBe(true);
  });

  it.each(['network', 'battery-clock'] as const)('is believed where a %s has', (source) => {
    expect(unsetAfter({ kept: unasked('this'), source })).toBe(false);
  });

  it('is asked but once: what this version keeps says it', () => {
    const state = pastOf({ kept: unasked('this'), source: 'network' }).begun(at(600), UP);
    expect(unsetAfter({ kept: keptText(keptState(state, at(600)), 'this') })).toBe(false);
  });
});

describe('that of a host that knows nothing of one before it', () => {
  it('is believed at the first start of all: somebody stands there', () => {
    expect(unsetAfter({})).toBe(false);
  });

  it('is in doubt where what was kept cannot be used', () => {
    expect(unsetAfter({ kept: 'half a te' })).toBe(true);
  });

  const opened = async (kept: string): Promise<boolean> => {
    const past = pastOf({ late: Promise.resolve(found(kept)) });
    let state = past.begun(at(600), UP);
    expect(state.clock.isUnset).toBe(true);
    await Promise.resolve();
    for (const event of past.events(at(601))) state = step(exampleFarm, state, event, at(601)).state;
    return state.clock.isUnset;
  };

  it('is in doubt until a book that opens late says that the machine has gone on', async () => {
    const both = [await opened(keptText(KEPT, 'this')), await opened(keptText(KEPT, 'another'))];
    expect(both).toEqual([false, true]);
  });

  it('stays in doubt where the version that kept it did not ask', async () => {
    expect(await opened(unasked('this'))).toBe(true);
  });
});
