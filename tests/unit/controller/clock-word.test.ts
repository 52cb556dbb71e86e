import { describe, expect, it } from 'vitest';
import { begin, step, type Event, type Step } from '../../../src/controller.ts';
import { believedNow, inDoubt } from '../../../src/time/clock-trust.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';

const NOON = utc('2026-07-14T11:00Z');
const TIME: Event = { kind: 'time' };
const OK: Event = { kind: 'acknowledge', alarm: 'clock-stepped', who: 'Ana' };
const RIGHT: Event = { kind: 'clock-right', who: 'rui at the host' };

/** The clock jumps by twelve hours at minute 20, and stays there. */
const at = (minutes: number): Now => ({
  monotonic: minute(minutes),
  wall: wallMillis(NOON + (minutes < 20 ? minutes : minutes + 12 * 60) * 60_000),
});

const after = (...events: readonly Event[]): Step => {
  let last = step(exampleFarm, begin(exampleFarm, at(0), { kind: 'up' }), TIME, at(0));
  for (const [place, event] of [TIME, TIME, ...events].entries())
    last = step(exampleFarm, last.state, event, at(19 + place));
  return last;
};
const stateOf = ({ state }: Step): string | undefined =>
  state.alarms.find(({ card }) => card.kind === 'clock-stepped')?.state;

describe('a clock that has jumped by 12 h', () => {
  it('is not believed because its alarm was acknowledged: that silences, and does nothing else', () => {
    const said = after(OK, TIME);
    expect(stateOf(said)).toBe('active-acknowledged');
    expect(inDoubt(said.state.clock)).toBe(true);
    expect(believedNow(said.state.clock, at(30)).wall).toBe('unknown');
  });

  it.each([
    ['before anybody has acknowledged it', [RIGHT, TIME]],
    ['after it was silenced', [OK, RIGHT, TIME]],
  ])('is believed once somebody at the host says that it is right, %s', (_, events) => {
    const said = after(...events);
    expect(inDoubt(said.state.clock)).toBe(false);
    expect(stateOf(said)).toBeUndefined();
  });

  it('and who said that stands in the book', () => {
    expect(after(OK, RIGHT).entries.slice(0, 2)).toMatchObject([
      {
        kind: 'order',
        order: 'clock-right',
        who: 'rui at the host',
        says: 'the clock is right as it is now',
      },
      { kind: 'alarm-returned', alarm: 'clock-stepped' },
    ]);
  });

  it('changes nothing where nobody doubts the clock', () => {
    const before = begin(exampleFarm, at(0), { kind: 'up' });
    const { entries, state } = step(exampleFarm, before, RIGHT, at(0));
    expect(entries.filter(({ kind }) => kind === 'order')).toMatchObject([
      { says: 'says that the clock is right, which nobody doubts' },
    ]);
    expect(state.clock.steppedAt).toBeNull();
  });
});
