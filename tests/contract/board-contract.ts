import type { OpenBench } from './bench.ts';
import type { BoardKind } from './bench-board.ts';
import { contactFacts } from './contact-facts.ts';
import { driveFacts } from './drive-facts.ts';
import { lossFacts } from './loss-facts.ts';
import { sampleFacts } from './sample-facts.ts';
import { strangerFacts } from './stranger-facts.ts';

/** What every board and every kind of line must hold. */
export const boardContract = (name: string, openBench: OpenBench, kind: BoardKind): void => {
  driveFacts(name, openBench);
  sampleFacts(name, openBench);
  contactFacts(name, openBench);
  lossFacts(name, openBench);
  strangerFacts(name, openBench, kind);
};
