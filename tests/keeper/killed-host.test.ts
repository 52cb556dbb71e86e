import { killedFacts } from './killed-facts.ts';

killedFacts(false, 11);
