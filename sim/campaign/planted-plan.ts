import type { Sample } from '../../src/ports/sample.ts';
import { samplesOf, type Planted } from './planting.ts';
import { within } from './script.ts';

const COLDER_CELSIUS = 12;
/** Of each word so much is taken: then no word is a jump. */
const SMOOTHED_SHARE = 0.02;

/** Bugs against the rests of the plan, by what is taken for the air. */
export const PLANTED_IN_PLAN: readonly Planted[] = [
  {
    invariant: 'I2',
    says: 'the air is taken for 12 °C colder than it is, so that floods come late',
    make: samplesOf(
      () => (sample) =>
        sample.channel === 'air-temperature'
          ? [{ ...sample, celsius: sample.celsius - COLDER_CELSIUS }]
          : [sample],
    ),
  },
  {
    invariant: 'I11',
    says: 'a thermometer that says anything at all is smoothed until it looks like air',
    needs: 'sensor-garbage',
    make: samplesOf(() => {
      let smooth: number | null = null;
      return (sample: Sample, { script, atMillis }) => {
        if (sample.channel !== 'air-temperature') return [sample];
        const bad = script.sensors.some(
          (fault) =>
            fault.channel === 'air-temperature' && fault.way === 'garbage' && within(fault, atMillis),
        );
        const before: number = smooth ?? sample.celsius;
        smooth = bad ? before + SMOOTHED_SHARE * (sample.celsius - before) : sample.celsius;
        return [{ ...sample, celsius: smooth }];
      };
    }),
  },
];
