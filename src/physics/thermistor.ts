import { exp, ln } from './portable-math.ts';

/** A thermistor whose resistance falls with warmth (NTC), in a divider on a converter pin. */

const ZERO_CELSIUS_KELVIN = 273.15;
const BITS = 10;
/** Counts from either end that are still the end: the ATmega328P's converter is true to ±2 counts. */
const RAIL_COUNTS = 2;

/** Volts at the pin for a count of the converter: counts · Vref / 2^bits. ATmega328P datasheet, ADC Conversion Result. */
export const pinVolts = (counts: number, referenceVolts: number, bits: number = BITS): number =>
  (counts * referenceVolts) / (1 << bits);

/** A fixed resistor and the thermistor in series between the converter's reference and ground. */
export interface Divider {
  /** The fixed resistor. */
  readonly fixedOhms: number;
  /** `to-ground`: the fixed resistor pulls up. `to-reference`: it pulls down. */
  readonly thermistor: 'to-ground' | 'to-reference';
  /** 10 when absent. */
  readonly bits?: number | undefined;
}

export type DividerReading =
  | { readonly kind: 'resistance'; readonly ohms: number }
  /** `open`: no thermistor or a broken wire; `short`: its wires touch. */
  | { readonly kind: 'open' | 'short' | 'impossible-count' };

/**
 * Resistance of the thermistor from the count, which may be a mean. The reference cancels out: to ground
 * R = Rf·n/(2^bits − n), to the reference R = Rf·(2^bits − n)/n. Within 2 counts of an end it is `open` or `short`.
 */
export const dividerReading = (counts: number, divider: Divider): DividerReading => {
  const scale = 1 << (divider.bits ?? BITS);
  if (!(counts >= 0 && counts <= scale - 1)) return { kind: 'impossible-count' };
  const toGround = divider.thermistor === 'to-ground';
  if (counts <= RAIL_COUNTS) return { kind: toGround ? 'short' : 'open' };
  if (counts >= scale - 1 - RAIL_COUNTS) return { kind: toGround ? 'open' : 'short' };
  const share = toGround ? counts / (scale - counts) : (scale - counts) / counts;
  return { kind: 'resistance', ohms: divider.fixedOhms * share };
};

/** A thermistor as the seller prints it: "10 k, 3950". */
export interface BetaThermistor {
  readonly ohmsAt25: number;
  /** B between 25 and 50 °C, K. */
  readonly betaKelvin: number;
}

const AT_25_KELVIN = ZERO_CELSIUS_KELVIN + 25;

/**
 * R = R25·e^(B(1/T − 1/298.15)). Exact at the two temperatures that define B, usually 25 and 50 °C; a real part
 * strays from it elsewhere, most in the cold.
 */
export const betaOhms = (celsius: number, { ohmsAt25, betaKelvin }: BetaThermistor): number =>
  ohmsAt25 * exp(betaKelvin * (1 / (celsius + ZERO_CELSIUS_KELVIN) - 1 / AT_25_KELVIN));

/** °C from a resistance above 0 Ω: the inverse of `betaOhms`. */
export const betaCelsius = (ohms: number, { ohmsAt25, betaKelvin }: BetaThermistor): number =>
  1 / (1 / AT_25_KELVIN + ln(ohms / ohmsAt25) / betaKelvin) - ZERO_CELSIUS_KELVIN;

/** 1/T = a + b·ln R + c·ln³R, T in K and R in Ω. Steinhart & Hart 1968, Deep-Sea Res. 15:497–503. */
export interface SteinhartHart {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** °C from a resistance above 0 Ω. Steinhart & Hart 1968. */
export const steinhartHartCelsius = (ohms: number, { a, b, c }: SteinhartHart): number => {
  const logarithm = ln(ohms);
  return 1 / (a + logarithm * (b + c * logarithm * logarithm)) - ZERO_CELSIUS_KELVIN;
};

/** ln 10 kΩ, where the search for a resistance begins. */
const START_LOGARITHM = 9.2;
/** Newton's steps on a cubic that only rises, from one side: a dozen reach the last bit from 1 Ω to 10 MΩ. */
const NEWTON_STEPS = 40;

/** Resistance in Ω at a temperature: `steinhartHartCelsius` turned round by Newton's method. */
export const steinhartHartOhms = (celsius: number, { a, b, c }: SteinhartHart): number => {
  const wanted = 1 / (celsius + ZERO_CELSIUS_KELVIN);
  let logarithm = START_LOGARITHM;
  for (let step = 0; step < NEWTON_STEPS; step += 1) {
    const square = logarithm * logarithm;
    logarithm -= (a + logarithm * (b + c * square) - wanted) / (b + 3 * c * square);
  }
  return exp(logarithm);
};

export interface ThermistorPoint {
  readonly celsius: number;
  readonly ohms: number;
}

/** `too-close`: two points within 5 °C. `not-falling`: the resistance does not fall, smoothly, as it gets warmer. */
export type SteinhartHartFit =
  | { readonly kind: 'fitted'; readonly coefficients: SteinhartHart }
  | { readonly kind: 'impossible-point' | 'too-close' | 'not-falling' };

/** Closer than this, half a degree of error in one point bends the curve by degrees elsewhere. Judgement. */
const POINT_GAP_CELSIUS = 5;
/** Below 1 Ω the logarithm turns negative and the fit may divide by 0; no thermistor of a thermometer is there. */
const POINT_OHMS_MIN = 1;

/** The curve of Steinhart & Hart 1968 through three points, given in any order. */
export const steinhartHartThrough = (
  points: readonly [ThermistorPoint, ThermistorPoint, ThermistorPoint],
): SteinhartHartFit => {
  const possible = points.every(
    ({ celsius, ohms }) =>
      Number.isFinite(celsius) &&
      celsius > -ZERO_CELSIUS_KELVIN &&
      Number.isFinite(ohms) &&
      ohms >= POINT_OHMS_MIN,
  );
  if (!possible) return { kind: 'impossible-point' };
  const [first, second, third] = points;
  const closest = Math.min(
    Math.abs(first.celsius - second.celsius),
    Math.abs(second.celsius - third.celsius),
    Math.abs(third.celsius - first.celsius),
  );
  if (closest < POINT_GAP_CELSIUS) return { kind: 'too-close' };
  const [l1, l2, l3] = [ln(first.ohms), ln(second.ohms), ln(third.ohms)] as const;
  const inverse = ({ celsius }: ThermistorPoint): number => 1 / (celsius + ZERO_CELSIUS_KELVIN);
  const slope2 = (inverse(second) - inverse(first)) / (l2 - l1);
  const slope3 = (inverse(third) - inverse(first)) / (l3 - l1);
  const c = (slope3 - slope2) / (l3 - l2) / (l1 + l2 + l3);
  const b = slope2 - c * (l1 * l1 + l1 * l2 + l2 * l2);
  const a = inverse(first) - l1 * (b + c * l1 * l1);
  // A curve that rises with ln R at both ends rises between them; equal resistances make its terms infinite, and fail.
  const rises = [l1, l2, l3].every((logarithm) => b + 3 * c * logarithm * logarithm > 0);
  return rises ? { kind: 'fitted', coefficients: { a, b, c } } : { kind: 'not-falling' };
};
