import { killedFacts } from './killed-facts.ts';

killedFacts(true, 12);
