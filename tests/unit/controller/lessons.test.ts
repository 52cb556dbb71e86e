import { describe, expect, it } from 'vitest';
import { usualReturn } from '../../../src/verify/learned.ts';
import { lowerReturn } from '../../../src/verify/return-plateau.ts';
import { farmWith } from '../../support/farm.ts';
import { seen, toldFrom, type Told } from './noon.ts';

/** Floods of 20 min, and in the heat the shortest rest of 25. */
const FARM = farmWith(
  [['evidence'], { returnFlow: 'meter' }],
  [['bounds', 'restMinutesByDay'], { shortest: 25, longest: 40 }],
  [['bounds', 'restMinutesByNight'], { shortest: 25, longest: 180 }],
);
const USUAL = 40;
/** What comes back where the channels are still full of the flood before. */
const FULL = 46;

const watched = (): Told => {
  const told = toldFrom(FARM);
  told.tell(0, seen(0));
  return told;
};
const lookOn = (told: Told, minutes: number, flow: number): void => {
  told.lookOn(minutes, () => [
    { channel: 'air-temperature', celsius: 38 },
    { channel: 'return-flow', litresPerMinute: told.state().guard.asked.kind === 'on' ? flow : 0 },
  ]);
};

describe('what floods teach', () => {
  it('is learned of each that comes after a rest of the shortest length', () => {
    const told = watched();
    lookOn(told, 5 * 45, USUAL);
    expect(told.state().learned.endFlows).toEqual(
      Array.from({ length: 5 }, () => ({ minutes: 20, litresPerMinute: USUAL })),
    );
  });

  it('allows for what the roots lacked as it began: more after a long rest than after the usual one', () => {
    const told = watched();
    lookOn(told, 6 * 45 + 30, USUAL);
    expect(told.state().flood).toBeNull();
    const usual = told.state().learned.plateau.last.at(-1)!.takenLitresPerMinute;
    told.tell(6 * 45 + 30, { kind: 'hold', minutes: 60, who: 'Ana' });
    lookOn(told, 6 * 45 + 91, USUAL);
    const { lackedLitres, minutes } = told.state().flood!;
    lookOn(told, 6 * 45 + 91 + minutes, USUAL);
    const late = told.state().learned.plateau.last.at(-1)!.takenLitresPerMinute;
    expect(late).toBeGreaterThan(lackedLitres / minutes);
    expect(late).toBeGreaterThan(usual);
  });

  it('is nothing where one is asked for upon the other: what comes after them is not lower', () => {
    const told = watched();
    lookOn(told, 1, USUAL);
    for (let flood = 1; flood <= 6; flood += 1) {
      lookOn(told, 21 * flood, flood === 1 ? USUAL : FULL);
      told.tell(21 * flood, { kind: 'flood-now', who: 'Ana' });
    }
    const asked = told.entries().filter(({ kind }) => kind === 'flood-started').length;
    expect(asked).toBeGreaterThanOrEqual(6);
    expect(told.state().learned.endFlows).toEqual([{ minutes: 20, litresPerMinute: USUAL }]);
    lookOn(told, 21 * 7 + 4 * 45, USUAL);
    expect(lowerReturn(told.state().learned.plateau)).toBeNull();
    expect(usualReturn(told.state().learned, 30, 20)).toBe(USUAL);
  });

  it('is nothing where the return shows water before the pump runs: a sensor that sticks high makes no best', () => {
    const told = watched();
    lookOn(told, 10, USUAL);
    told.lookOn(8 * 45, () => [
      { channel: 'air-temperature', celsius: 38 },
      { channel: 'return-flow', litresPerMinute: FULL },
    ]);
    expect(told.state().learned.endFlows.length).toBeLessThanOrEqual(1);
    expect(told.state().learned.bestLitresPerMinute).toBe(0);
    lookOn(told, 14 * 45, USUAL);
    expect(lowerReturn(told.state().learned.plateau)).toBeNull();
    expect(told.state().learned.bestLitresPerMinute).toBe(USUAL);
  });
});
