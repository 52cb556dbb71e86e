/**
 * Equations 1–7 of the model once more, as plain differential equations and with its central values, sharing
 * no line with the plant: what an accurate solver makes of them is what the plant's steps are held against.
 * Litres, minutes, °C, mg/L of oxygen; salts as strength times volume (mS/cm·L).
 */

export interface BenchOfEquations {
  readonly plants: number;
  readonly channelMetres: number;
  readonly ageDays: number;
  /** q with the pump on. */
  readonly litresPerMinute: number;
}

export interface AirOfEquations {
  readonly airCelsius: number;
  readonly vapourKilopascals: number;
  readonly sunWattsPerSquareMetre: number;
}

export interface ShedOfEquations {
  readonly benches: readonly BenchOfEquations[];
  readonly valve: { readonly closesAtLitres: number; readonly litresPerMinute: number };
  readonly topUpMillisiemensPerCm: number;
  readonly airAt: (minutes: number) => AirOfEquations;
}

/** Places in the vector of states: five for each bench, then three for the tank. */
export const AT = { x: 0, v: 1, celsius: 2, salts: 3, oxygen: 4, perBench: 5 } as const;
export const TANK_AT = { litres: 0, celsius: 1, salts: 2 } as const;

/** cap of the model's table, L. */
export const capacityLitres = ({ plants, ageDays }: BenchOfEquations): number => {
  const rootGrams = 40 / (1 + Math.exp(-0.19 * (ageDays - 41)));
  return (plants * (20 + 5 + (1.5 + 1) * rootGrams)) / 1000;
};

/** Benson & Krause 1984 at 101.3 kPa, the form of APHA 4500-O without its small correction for pressure at 1 atm. */
const saturated = (celsius: number): number => {
  const t = celsius + 273.15;
  const logarithm =
    -139.34411 + 1.575701e5 / t - 6.642308e7 / t ** 2 + 1.2438e10 / t ** 3 - 8.621949e11 / t ** 4;
  return Math.exp(logarithm) * (101.3 / 101.325);
};

/** Of all roots of a bench, mg of oxygen per litre of capacity and minute at 25 °C. */
const respiration = ({ plants, ageDays }: BenchOfEquations, cap: number): number =>
  (2.9 * plants * (40 / (1 + Math.exp(-0.19 * (ageDays - 41)))) * 0.06 * 0.4) / 60 / cap;

const fullUptake = ({ plants, ageDays }: BenchOfEquations, air: AirOfEquations): number => {
  const leafAreaIndex = (16 * 0.4) / (1 + Math.exp(-0.19 * (ageDays - 41)));
  const { airCelsius, vapourKilopascals, sunWattsPerSquareMetre: sun } = air;
  const saturated = 0.6108 * Math.exp((17.27 * airCelsius) / (airCelsius + 237.3)); // FAO-56 eq. 11
  const deficit = Math.max(0, saturated - vapourKilopascals);
  const bySun = 0.45 * (1 - Math.exp(-0.64 * leafAreaIndex)) * sun;
  const byAir = 18 * leafAreaIndex * deficit * (0.35 + (0.65 * sun) / (sun + 50));
  return ((plants / 16) * (bySun + byAir) * 60) / 2.45e6;
};

/** The derivative of all states while the pump stays as it is and the crops are of the ages given. */
export const equations =
  (shed: ShedOfEquations, ages: readonly number[], pumpOn: boolean) =>
  (minutes: number, y: readonly number[]): number[] => {
    const air = shed.airAt(minutes);
    const tankAt = AT.perBench * shed.benches.length;
    const volume = y[tankAt + TANK_AT.litres]!;
    const tankCelsius = y[tankAt + TANK_AT.celsius]!;
    const strength = y[tankAt + TANK_AT.salts]! / volume;
    const change: number[] = [];
    let pumped = 0;
    let drained = 0;
    let drainedHeat = 0;
    let drainedSalts = 0;
    shed.benches.forEach((facts, place) => {
      const bench = { ...facts, ageDays: ages[place]! };
      const size = bench.channelMetres / 72;
      const cap = capacityLitres(bench);
      const at = AT.perBench * place;
      const x = Math.max(0, y[at + AT.x]!);
      const v = y[at + AT.v]!;
      const celsius = y[at + AT.celsius]!;
      const salts = y[at + AT.salts]!;
      const q = pumpOn ? bench.litresPerMinute : 0;
      // Twice the channel lets out twice the flow at twice the water.
      const drain = (0.0395 / Math.sqrt(size)) * x ** 1.5;
      const refill = (0.15 * (cap - v) * x) / (x + 5 * size);
      const drunk = fullUptake(bench, air) * Math.min(1, v / cap / 0.5);
      const cover = 1 - Math.exp((-0.64 * 16 * 0.4) / (1 + Math.exp(-0.19 * (bench.ageDays - 41))));
      const warming = 0.037 * size * (1 - 0.7 * cover) * air.sunWattsPerSquareMetre;
      const own = salts / (x + v);
      const oxygen = y[at + AT.oxygen]!;
      const full = saturated(celsius);
      const fresh = (0.3 * x) / (x + 5 * size) + refill / v;
      const aerated = (1.56 * size * 1.024 ** (celsius - 20)) / v;
      const used = respiration(bench, cap) * 1.7 ** ((celsius - 25) / 10);
      change[at + AT.oxygen] =
        fresh * (0.95 * full - oxygen) + aerated * (full - oxygen) - (used * oxygen) / (0.5 + oxygen);
      change[at + AT.x] = q - drain - refill;
      change[at + AT.v] = refill - drunk;
      change[at + AT.celsius] =
        (q * (tankCelsius - celsius) + 3.3 * size * (air.airCelsius - celsius) + warming) /
        (x + v + 16 * size);
      change[at + AT.salts] = q * strength - drain * own - (drunk * 1.6 * own) / (0.5 + own);
      pumped += q;
      drained += drain;
      drainedHeat += drain * (celsius - tankCelsius);
      drainedSalts += drain * own;
    });
    // The valve closes over its last 5 L; what it lets in has the temperature of the air.
    const open = Math.min(1, Math.max(0, (shed.valve.closesAtLitres - volume) / 5));
    const toppedUp = shed.valve.litresPerMinute * open;
    change[tankAt + TANK_AT.litres] = drained - pumped + toppedUp;
    change[tankAt + TANK_AT.celsius] =
      (drainedHeat + (0.25 + toppedUp) * (air.airCelsius - tankCelsius)) / volume;
    change[tankAt + TANK_AT.salts] =
      drainedSalts - pumped * strength + toppedUp * shed.topUpMillisiemensPerCm;
    return change;
  };
