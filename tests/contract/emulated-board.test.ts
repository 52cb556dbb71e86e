import { boardContract } from './board-contract.ts';
import { emulatedBench, KEEPER } from './emulated-bench.ts';
import { handoverFacts } from './handover-facts.ts';
import { keeperFacts } from './keeper-facts.ts';
import { refusalFacts } from './refusal-facts.ts';
import { tableFacts } from './table-facts.ts';

const NAME = 'compiled firmware on an emulated board';

boardContract(NAME, emulatedBench, KEEPER);
keeperFacts(NAME, emulatedBench);
handoverFacts(NAME, emulatedBench);
tableFacts(NAME, emulatedBench);
refusalFacts(NAME, emulatedBench);
