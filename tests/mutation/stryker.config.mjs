/**
 * How many changes of what decides about the pump, and of who is called, the unit tests beside it notice. By hand, about two
 * hours on one core: `npm run mutation`, or of one folder `npm run mutation -- --mutate 'src/verify/*.ts'`.
 */
export default {
  mutate: ['src/{plan,command,verify,alarm}/**/*.ts'],
  testRunner: 'vitest',
  vitest: { configFile: 'tests/mutation/vitest.config.ts' },
  plugins: ['@stryker-mutator/vitest-runner'],
  coverageAnalysis: 'perTest',
  // What is worked out once when a file is loaded cannot be tried test by test.
  ignoreStatic: true,
  concurrency: 1,
  reporters: ['clear-text', 'json', 'progress-append-only'],
  clearTextReporter: { logTests: false, reportTests: false, reportMutants: false },
  jsonReporter: { fileName: '.stryker-tmp/mutation.json' },
  tempDirName: '.stryker-tmp',
  timeoutMS: 20_000,
};
