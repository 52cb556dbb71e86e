import fc from 'fast-check';

/**
 * Property tests draw the same cases at every run, so that a red build means a change and not bad luck.
 * `FC_SEED=… npm test` draws others.
 */
const SEED = 20_260_714;
const asked = Number(process.env['FC_SEED'] ?? SEED);
fc.configureGlobal({ seed: Number.isInteger(asked) ? asked : SEED });
