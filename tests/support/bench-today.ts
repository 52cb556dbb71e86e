import fc from 'fast-check';
import { benchToday, type BenchToday } from '../../sim/plant/bench.ts';
import { CENTRAL } from '../../sim/plant/judgements.ts';
import { anyBench, anyJudgements, LETTUCE, plantBuild, START } from './plant.ts';

/** A bench of 300 lettuces of 40 days with the model's central values, as the steppers see it. */
export const LETTUCE_TODAY: BenchToday = benchToday(plantBuild([LETTUCE]).benches[0]!, CENTRAL, START);

/** Any bench with any judgements. */
export const anyBenchToday: fc.Arbitrary<BenchToday> = fc
  .tuple(anyBench, anyJudgements)
  .map(([bench, judgements]) => benchToday(plantBuild([bench]).benches[0]!, judgements, START));
