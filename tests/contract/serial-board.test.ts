import { boardContract } from './board-contract.ts';
import { serialBench } from './serial-bench.ts';

boardContract('a software board on a serial line', serialBench);
