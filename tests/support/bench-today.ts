import fc from 'fast-check';
import { benchToday, type BenchToday } from '../../sim/plant/bench.ts';
import { CENTRAL, CHANNEL_METRES } from '../../sim/plant/judgements.ts';
import { anyBench, anyJudgements, LETTUCE, plantBuild, START } from './plant.ts';

/** A bench of 300 lettuces of 40 days with the model's central values, as the steppers see it. */
export const LETTUCE_TODAY: BenchToday = benchToday(plantBuild([LETTUCE]).benches[0]!, CENTRAL, START);

/** Any bench with any judgements, and its channels against the usual 72 m. */
export const anySizedBench: fc.Arbitrary<{ readonly today: BenchToday; readonly size: number }> = fc
  .tuple(anyBench, anyJudgements)
  .map(([bench, judgements]) => ({
    today: benchToday(plantBuild([bench]).benches[0]!, judgements, START),
    size: bench.channelMetres / CHANNEL_METRES,
  }));

export const anyBenchToday: fc.Arbitrary<BenchToday> = anySizedBench.map(({ today }) => today);
