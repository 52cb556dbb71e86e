import { describe, expect, it } from 'vitest';
import { createRelayContact, type RelayContact } from '../../../sim/board/relay-contact.ts';
import type { Fault } from '../../../sim/faults/fault.ts';
import type { Plant } from '../../../sim/plant/plant.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { air, LETTUCE, MINUTE, plantBuild, rested, START } from '../../support/plant.ts';
import { fault } from '../sim-run/board-support.ts';

interface Wired {
  readonly plant: Plant;
  readonly relay: RelayContact;
  /** Minutes in which the pump ran up to then. */
  readonly ranUntil: (minutes: number) => number;
}

const wired = (...faults: readonly Fault[]): Wired => {
  const still = air(28, 2, 300);
  const sky = { start: wallMillis(START), end: wallMillis(START + 60 * MINUTE), at: () => still };
  const plant = rested(plantBuild([LETTUCE]), sky);
  const relay = createRelayContact(plant, faults);
  let ran = 0;
  return {
    plant,
    relay,
    ranUntil: (minutes) => {
      relay.advance(START + minutes * MINUTE, (state, step) => {
        if (state.pumpOn) ran += step;
      });
      return ran;
    },
  };
};

describe('a relay that is well', () => {
  it('stands open until it is asked, and runs the pump while it is closed', () => {
    const { relay, plant, ranUntil } = wired();
    expect([relay.contact(), plant.state.pumpOn]).toEqual(['open', false]);
    expect(ranUntil(5)).toBe(0);
    relay.ask('closed');
    expect([relay.contact(), plant.state.pumpOn]).toEqual(['closed', true]);
    expect(ranUntil(12)).toBeCloseTo(7, 9);
    relay.ask('open');
    expect([relay.contact(), plant.state.pumpOn]).toEqual(['open', false]);
    expect(ranUntil(20)).toBeCloseTo(7, 9);
  });
});

describe('a broken relay', () => {
  it('that does not close runs nothing, and runs again at the minute at which it is mended', () => {
    const { relay, ranUntil } = wired(fault('relay-open', 0, 10));
    relay.ask('closed');
    expect(relay.contact()).toBe('open');
    expect(ranUntil(10)).toBe(0);
    expect(relay.contact()).toBe('closed');
    expect(ranUntil(15)).toBeCloseTo(5, 9);
  });

  it('that welds at minute 5 of an hour runs the pump from then on, asked or not', () => {
    const { relay, ranUntil } = wired(fault('relay-welded', 5));
    expect(ranUntil(60)).toBeCloseTo(55, 9);
    relay.ask('open');
    expect(relay.contact()).toBe('closed');
  });

  it('that welds from minute 5 to 12, seen in one step of 20 min, runs 7 min', () => {
    expect(wired(fault('relay-welded', 5, 12)).ranUntil(20)).toBeCloseTo(7, 9);
  });
});

describe('a pump that is broken', () => {
  it('moves nothing from the minute at which it dies, though the contact is closed', () => {
    const { relay, plant, ranUntil } = wired(fault('pump-dead', 5));
    relay.ask('closed');
    ranUntil(4);
    expect(plant.state.pumpedLitresPerMinute).toBeGreaterThan(1);
    ranUntil(6);
    expect(relay.contact()).toBe('closed');
    expect(plant.state.pumpedLitresPerMinute).toBe(0);
  });
});
