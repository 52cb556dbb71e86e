import { exp } from './portable-math.ts';

/**
 * Oxygen that water holds when it stands in balance with moist air: Benson & Krause 1984, Limnol. Oceanogr. 29:620–632,
 * in the form that USGS Office of Water Quality Technical Memorandum 2011.03 and APHA 4500-O give it.
 */
const ZERO_CELSIUS_KELVIN = 273.15;
const ATMOSPHERE_KILOPASCALS = 101.325;

/** mg/L in fresh water under 1 atm. */
const freshAtOneAtmosphere = (kelvin: number): number => {
  const inverse = 1 / kelvin;
  return exp(
    -139.34411 +
      inverse * (1.575701e5 - inverse * (6.642308e7 - inverse * (1.2438e10 - inverse * 8.621949e11))),
  );
};

/** Share that is left in water with dissolved salts. */
const saltShare = (saltGramsPerKilogram: number, kelvin: number): number =>
  exp(-saltGramsPerKilogram * (0.017674 - (10.754 - 2140.7 / kelvin) / kelvin));

/** Share that is held under another pressure than 1 atm; the vapour above the water does not shrink with it. */
const pressureShare = (atmospheres: number, celsius: number, kelvin: number): number => {
  const vapour = exp(11.8571 - (3840.7 + 216961 / kelvin) / kelvin);
  if (vapour >= Math.min(1, atmospheres)) return 0;
  const theta = 0.000975 - celsius * (1.426e-5 - celsius * 6.436e-8);
  return ((atmospheres - vapour) * (1 - theta * atmospheres)) / ((1 - vapour) * (1 - theta));
};

/**
 * Oxygen in mg/L of water in balance with the air; for 0–40 °C, 50–111 kPa and 0–40 g/kg of salts. Above 40 °C the
 * formula goes on: held at 40 °C it would promise oxygen that hot water does not hold. Water that boils holds 0. The
 * pressure at a height above the sea is `pressureKilopascals` of vapour.ts.
 */
export const saturatedOxygenMilligramsPerLitre = (
  waterCelsius: number,
  airKilopascals: number,
  saltGramsPerKilogram = 0,
): number => {
  const kelvin = waterCelsius + ZERO_CELSIUS_KELVIN;
  return (
    freshAtOneAtmosphere(kelvin) *
    saltShare(saltGramsPerKilogram, kelvin) *
    pressureShare(airKilopascals / ATMOSPHERE_KILOPASCALS, waterCelsius, kelvin)
  );
};

/**
 * Salts in g/kg that weigh on oxygen as much as those of a water of this conductivity at 25 °C. USGS Technical
 * Memorandum 2011.03, for natural waters; a tank of 2000 µS/cm holds 0.7 % less oxygen than fresh water.
 */
export const saltGramsPerKilogramFrom = (microsiemensPerCmAt25: number): number =>
  microsiemensPerCmAt25 * (5.572e-4 + microsiemensPerCmAt25 * 2.02e-9);
