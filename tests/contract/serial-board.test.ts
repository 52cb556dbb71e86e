import { STOCK } from './bench-board.ts';
import { boardContract } from './board-contract.ts';
import { serialBench } from './serial-bench.ts';
import { stockFacts } from './stock-facts.ts';

const NAME = 'a software board on a serial line';

boardContract(NAME, serialBench, STOCK);
stockFacts(NAME, serialBench);
