import type { Wiring } from '../../src/farm/farm.ts';
import { betaOhms, steinhartHartOhms } from '../../src/physics/thermistor.ts';
import { bounded } from '../../src/units/bounded.ts';

/** What the converter of the board reads for a thing in the shed; the way back is the host's. */

const STEPS = 1024;
const COUNTS_MAX = 1023;
const PERCENT_PER_KELVIN = 2;

type Thermistor = NonNullable<Wiring['airThermistor']>;

/** Of a thermistor whose cable is cut. */
export const openThermistor = ({ wired }: Thermistor): number => (wired === 'to-ground' ? COUNTS_MAX : 0);

export const thermistorCounts = (celsius: number, part: Thermistor): number => {
  const { fixedOhms, steinhartHart } = part;
  const ohms =
    steinhartHart === undefined ? betaOhms(celsius, part) : steinhartHartOhms(celsius, steinhartHart);
  const low = part.wired === 'to-ground' ? ohms : fixedOhms;
  return bounded((STEPS * low) / (ohms + fixedOhms), 0, COUNTS_MAX);
};

/** Of a sensor whose counts rise or fall in a straight line with what it measures. */
export const linearCounts = (value: number, atZero: number, atFullScale: number): number =>
  bounded((COUNTS_MAX * (value - atZero)) / (atFullScale - atZero), 0, COUNTS_MAX);

/** Of a calibrated probe in a solution of this strength at 25 °C, at its own temperature. */
export const probeCounts = (
  millisiemensPerCmAt25: number,
  celsius: number,
  probe: NonNullable<Wiring['probe']>,
): number => {
  const factor = 1 + (PERCENT_PER_KELVIN / 100) * (celsius - 25);
  const microsiemensPerCm = Math.max(0, 1000 * millisiemensPerCmAt25 * factor);
  if ('drivenBy' in probe) {
    const cellOhms = (1e6 * probe.cellPerCm) / microsiemensPerCm;
    return (COUNTS_MAX * probe.seriesOhms) / (probe.seriesOhms + cellOhms);
  }
  return bounded((STEPS * microsiemensPerCm) / probe.fullScaleMicrosiemensPerCm, 0, COUNTS_MAX);
};
