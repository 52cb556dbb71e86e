import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  current,
  floodOrdered,
  floodServed,
  held,
  NO_ORDERS,
  released,
  type Orders,
} from '../../../src/command/orders.ts';
import { minute } from '../../support/moments.ts';

const holdOf = (minutes: number): Orders => held(NO_ORDERS, 'Ana', minutes, minute(10));

describe('a hold', () => {
  it.each([
    [30, 30],
    [240, 240],
    [241, 240],
    [100_000, 240],
    [Infinity, 240],
    [Number.NaN, 240],
  ])('of %d min lasts %d min', (asked, lasts) => {
    expect(holdOf(asked).hold).toEqual({ from: minute(10), until: minute(10 + lasts), who: 'Ana' });
  });

  it.each([0, -5, -Infinity])('of %d min is none, and ends none that stands', (minutes) => {
    expect(holdOf(minutes).hold).toBeNull();
    expect(held(holdOf(30), 'Rui', minutes, minute(15))).toEqual(holdOf(30));
  });

  it('of 30 min stands at 29 min 59 s and has ended by itself at 30 min', () => {
    expect(current(holdOf(30), minute(10 + 29.98)).hold?.who).toBe('Ana');
    expect(current(holdOf(30), minute(40)).hold).toBeNull();
  });

  it('of whatever length has ended 240 min later', () => {
    fc.assert(
      fc.property(fc.double(), (minutes) => {
        expect(current(holdOf(minutes), minute(250)).hold).toBeNull();
      }),
    );
  });

  it('ends at once when a person releases it', () => {
    expect(released(holdOf(30), 'Ana').hold).toBeNull();
  });

  it('is not cut short by a shorter one, but drops the flood that was asked for all the same', () => {
    const orders = { ...holdOf(30), floodNow: { who: 'Rui', until: minute(20) } };
    const shorter = held(orders, 'Eva', 24, minute(15));
    expect(shorter.hold).toEqual(holdOf(30).hold);
    expect(shorter.floodNow).toBeNull();
    const longer = held(orders, 'Eva', 26, minute(15));
    expect(longer.hold).toEqual({ from: minute(15), until: minute(41), who: 'Eva' });
    // Nor by one under the same name: many may share a button.
    expect(held(orders, 'Ana', 24, minute(15))).toEqual(holdOf(30));
    expect(held(orders, 'Ana', 26, minute(15)).hold?.until).toBe(minute(41));
  });

  it('of one person ends without that of another', () => {
    const both = held(holdOf(60), 'Rui', 30, minute(11));
    const ruis = { from: minute(11), until: minute(41), who: 'Rui' };
    expect(both.others).toEqual([ruis]);
    expect(released(both, 'Ana')).toEqual({ hold: ruis, others: [], floodNow: null });
    expect(released(both, 'Rui')).toEqual(holdOf(60));
    expect(current(both, minute(41))).toEqual(holdOf(60));
    expect(current(both, minute(70))).toEqual(NO_ORDERS);
  });

  it('is ended, with all others, by somebody who holds nothing', () => {
    expect(released(held(holdOf(60), 'Rui', 30, minute(11)), 'Eva')).toEqual(NO_ORDERS);
  });

  it('is one of twenty at most; of more those that end first are dropped', () => {
    const many = Array.from({ length: 25 }, (_, place) => place);
    const orders = many.reduce(
      (all, place) => held(all, `person ${place}`, 10 + place, minute(0)),
      NO_ORDERS,
    );
    expect(orders.others).toHaveLength(19);
    expect(orders.hold?.who).toBe('person 24');
    expect(orders.others.at(-1)?.who).toBe('person 5');
  });

  it('asked for again runs from the second asking, under the second name', () => {
    const again = held(holdOf(30), 'Rui', 20, minute(35));
    expect(again.hold).toEqual({ from: minute(35), until: minute(55), who: 'Rui' });
  });
});

describe('a flood asked for', () => {
  it('stands until it is served, for ten minutes at most', () => {
    const asked = floodOrdered(NO_ORDERS, 'Ana', minute(10));
    expect(current(asked, minute(19.9)).floodNow?.who).toBe('Ana');
    expect(floodServed(asked).floodNow).toBeNull();
    expect(current(asked, minute(20)).floodNow).toBeNull();
  });

  it('is dropped under a hold, and does not come when the hold ends or is released', () => {
    const asked = floodOrdered(holdOf(30), 'Rui', minute(11));
    expect(asked.floodNow).toBeNull();
    expect(current(asked, minute(40))).toEqual(NO_ORDERS);
    expect(released(asked, 'Ana').floodNow).toBeNull();
  });

  it('is dropped when a hold comes after it: hands go into the water', () => {
    expect(held(floodOrdered(NO_ORDERS, 'Rui', minute(0)), 'Ana', 30, minute(0)).floodNow).toBeNull();
  });

  it('served leaves a hold as it is', () => {
    expect(floodServed(holdOf(30)).hold).toEqual(holdOf(30).hold);
  });
});
