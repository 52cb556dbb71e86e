import { describe, expect, it } from 'vitest';
import { cloned, type PlantState } from '../../sim/plant/state.ts';
import { integrated } from '../support/odex.ts';
import {
  DAY_MINUTES,
  flooded,
  LETTUCE,
  MINUTE,
  plantBuild,
  rested,
  START,
  type Flood,
} from '../support/plant.ts';
import { AT, capacityLitres, equations, TANK_AT, type ShedOfEquations } from './flood-day-equations.ts';

/** Knots of the weather, one an hour. */
const CELSIUS = [
  22, 21, 20, 19.5, 19, 19, 20, 22, 24.5, 27, 29, 31, 32.5, 33.5, 34, 34, 33, 31.5, 29.5, 27.5, 26, 25, 24,
  23, 22,
];
const VAPOUR = [
  1.8, 1.8, 1.9, 1.8, 1.8, 1.8, 1.8, 1.9, 1.9, 2, 2.1, 2, 1.9, 1.8, 1.7, 1.7, 1.8, 1.9, 2, 2, 2, 1.9, 1.9,
  1.8, 1.8,
];
/** A cloud stands before the sun at 14 h. */
const SUN = [
  0, 0, 0, 0, 0, 0, 20, 170, 370, 560, 720, 840, 900, 880, 310, 730, 580, 380, 180, 30, 0, 0, 0, 0, 0,
];
const KNOT_MINUTES = 60;

const between = (knots: readonly number[], minutes: number): number => {
  const place = Math.min(knots.length - 2, Math.floor(minutes / KNOT_MINUTES));
  const share = minutes / KNOT_MINUTES - place;
  return knots[place]! * (1 - share) + knots[place + 1]! * share;
};

const shed: ShedOfEquations = {
  benches: [
    { plants: 300, channelMetres: 72, ageDays: 40, litresPerMinute: 10 },
    { plants: 150, channelMetres: 36, ageDays: 25, litresPerMinute: 6 },
  ],
  valve: { closesAtLitres: 590, litresPerMinute: 4 },
  topUpMillisiemensPerCm: 0.3,
  airAt: (minutes) => ({
    airCelsius: between(CELSIUS, minutes),
    vapourKilopascals: between(VAPOUR, minutes),
    sunWattsPerSquareMetre: between(SUN, minutes),
  }),
};

/** Three by night, then one every 45 min; the one of 13:00 is missed, so that θ falls past the kink at θc. */
const FLOODS: readonly Flood[] = [
  1,
  4,
  ...Array.from({ length: 16 }, (_, step) => 6.25 + step * 0.75),
  20,
  22.5,
]
  .filter((hour) => hour !== 13)
  .map((hour) => ({ from: hour * 60, minutes: 20 }));

const build = plantBuild(
  shed.benches.map((bench, place) => ({ ...LETTUCE, ...bench, liftMetres: [1.1, 1.5][place]! })),
  {
    topUp: { kind: 'float-valve', ...shed.valve },
    topUpMillisiemensPerCm: shed.topUpMillisiemensPerCm,
  },
);

const vectorOf = ({ benches, tank }: PlantState): number[] => [
  ...benches.flatMap((bench) => [
    bench.drainableLitres,
    bench.heldLitres,
    bench.waterCelsius,
    bench.salts,
    bench.oxygenMilligramsPerLitre,
  ]),
  tank.litres,
  tank.celsius,
  tank.salts,
];

interface Errors {
  /** Largest errors: v and strengths against themselves, temperatures in °C, the tank in L. */
  held: number;
  tankLitres: number;
  benchCelsius: number;
  tankCelsius: number;
  benchStrength: number;
  tankStrength: number;
  /** mg/L. */
  oxygen: number;
  lowestTheta: number;
}

/** The accurate day beside the plant's, compared at every step of the plant; restarted there, so at every event. */
const largestErrors = (): Errors => {
  const sky = {
    at: (millis: number) => ({ ...shed.airAt((millis - START) / MINUTE), windMetresPerSecond: 1 }),
  };
  const plant = rested(build, sky);
  const steps: PlantState[] = [cloned(plant.state)];
  flooded(plant, FLOODS, DAY_MINUTES, (state) => steps.push(cloned(state)));

  const worst: Errors = {
    held: 0,
    tankLitres: 0,
    benchCelsius: 0,
    tankCelsius: 0,
    benchStrength: 0,
    tankStrength: 0,
    oxygen: 0,
    lowestTheta: 1,
  };
  const keep = (name: keyof Errors, error: number): void => {
    worst[name] = Math.max(worst[name], Math.abs(error));
  };
  let y = vectorOf(steps[0]!) as readonly number[];
  for (let step = 1; step < steps.length; step += 1) {
    const from = (steps[step - 1]!.atMillis - START) / MINUTE;
    const state = steps[step]!;
    // The canopy is taken afresh every six hours; that is a choice of the plant, not an error of its steps.
    const grownDays = Math.floor(from / 360) / 4;
    const ages = shed.benches.map((bench) => bench.ageDays + grownDays);
    y = integrated(equations(shed, ages, state.pumpOn), from, y, (state.atMillis - START) / MINUTE, 1e-10);
    state.benches.forEach((bench, place) => {
      const [x, v, celsius, salts, oxygen] = y.slice(AT.perBench * place) as [
        number,
        number,
        number,
        number,
        number,
      ];
      const cap = capacityLitres({ ...shed.benches[place]!, ageDays: ages[place]! });
      keep('held', bench.heldLitres / v - 1);
      keep('benchCelsius', bench.waterCelsius - celsius);
      keep('oxygen', bench.oxygenMilligramsPerLitre - oxygen);
      keep('benchStrength', bench.salts / (bench.drainableLitres + bench.heldLitres) / (salts / (x + v)) - 1);
      worst.lowestTheta = Math.min(worst.lowestTheta, v / cap);
    });
    const tank = y.slice(AT.perBench * shed.benches.length);
    const strength = tank[TANK_AT.salts]! / tank[TANK_AT.litres]!;
    keep('tankLitres', state.tank.litres - tank[TANK_AT.litres]!);
    keep('tankCelsius', state.tank.celsius - tank[TANK_AT.celsius]!);
    keep('tankStrength', state.tank.salts / state.tank.litres / strength - 1);
  }
  return worst;
};

describe('a day of 19 floods under moving weather on two benches, against the equations at 1e-10', () => {
  const worst = largestErrors();

  it('falls past θc 0.5 on the missed flood, to no less than 0.4', () => {
    expect(worst.lowestTheta).toBeLessThan(0.5);
    expect(worst.lowestTheta).toBeGreaterThan(0.4);
  });

  it.each([
    // The model's own trial of this way of stepping had 1.8e-3.
    ['held water within 0.2 % of itself', 'held', 2e-3],
    // The 2 L by which a level sensor in the tank is taken to waver; the channels hold 50 L back in a flood.
    ['the tank within 2 L', 'tankLitres', 2],
    // Half of the 0.2 °C by which a cheap thermometer is taken to waver.
    ['the water of the benches within 0.1 °C', 'benchCelsius', 0.1],
    ['the water of the tank within 0.1 °C', 'tankCelsius', 0.1],
    // 0.5 % of 1.6 mS/cm is 0.008, less than the last digit of a handheld meter.
    ['the strength in the benches within 0.5 % of itself', 'benchStrength', 5e-3],
    // A tenth of what a cheap oxygen meter tells apart.
    ['the oxygen of the benches within 0.02 mg/L', 'oxygen', 0.02],
    ['the strength in the tank within 0.5 % of itself', 'tankStrength', 5e-3],
  ] as const)('has at every step of the plant %s', (_, name, bound) => {
    expect(worst[name]).toBeLessThan(bound);
  });
});
