import { describe, expect, it } from 'vitest';
import { seededDice } from '../../../sim/dice.ts';
import { CENTRAL } from '../../../sim/plant/judgements.ts';
import type { PlantState } from '../../../sim/plant/state.ts';
import { drive, type Driven } from '../../../sim/run/drive.ts';
import { openShed, type Shed } from '../../../sim/run/shed.ts';
import { madeSky } from '../../../sim/weather/made-day.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { farmWith } from '../farm/example.ts';

const FROM = Date.parse('2026-07-14T08:00:00+01:00');
const UNTIL = FROM + 6 * 3_600_000;
const farm = farmWith();
const sky = madeSky({
  place: farm.place,
  start: wallMillis(FROM - 3_600_000),
  days: 2,
  ...farm.hotDay,
});

interface Morning extends Driven {
  readonly shed: Shed;
  readonly seen: readonly { readonly atMillis: number; readonly pumpOn: boolean }[];
}

const morning = (seed: number): Morning => {
  const shed = openShed({
    farm,
    sky,
    judgements: CENTRAL,
    faults: [],
    dice: seededDice(seed),
    startMillis: FROM,
  });
  const seen: { atMillis: number; pumpOn: boolean }[] = [];
  const driven = drive(farm, shed, UNTIL, ({ atMillis, pumpOn }: PlantState) => {
    seen.push({ atMillis, pumpOn });
  });
  return { ...driven, shed, seen };
};

describe('six hours of a hot morning with the whole controller', () => {
  const { entries, beforeStarts, shed, seen } = morning(1);
  const starts = entries.filter((entry) => entry.kind === 'pump-asked' && entry.pump === 'on');

  it('runs to its end and to no later', () => {
    expect(shed.plant.state.atMillis).toBe(UNTIL);
    expect(seen.at(-1)!.atMillis).toBe(UNTIL);
  });

  it('keeps the plant as it was just before each of the starts, more than 5 of them, pump off', () => {
    expect(beforeStarts.length).toBeGreaterThan(5);
    expect(beforeStarts.map(({ state }) => state.atMillis)).toEqual(starts.map((entry) => entry.at));
    expect(beforeStarts.some(({ state }) => state.pumpOn)).toBe(false);
  });

  it('pumps right after each of them', () => {
    for (const { state } of beforeStarts) {
      const next = seen.find(({ atMillis }) => atMillis > state.atMillis);
      expect(next?.pumpOn).toBe(true);
    }
  });

  it('has its entries in the order of time', () => {
    const moments = entries.map((entry) => entry.at);
    expect(moments).toEqual([...moments].sort((a, b) => a - b));
  });

  it('gives the same entries and the same water for the same seed, in every bit', () => {
    const again = morning(1);
    expect(again.entries).toEqual(entries);
    expect(again.shed.plant.state).toEqual(shed.plant.state);
  });

  it('reads other numbers with another seed', () => {
    expect(morning(2).entries).not.toEqual(entries);
  });
});
