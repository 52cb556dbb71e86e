import { defineConfig } from 'vitest/config';

/** They take every core there is. */
const CAMPAIGNS = ['swarm', 'bytes', 'fault-free-months'].map((name) => `tests/campaign/${name}.test.ts`);

export default defineConfig({
  test: {
    globalSetup: ['tests/system/build.ts'],
    setupFiles: ['tests/support/fixed-chance.ts'],
    reporters: ['default', './tests/support/closing-line.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Tests of a host in real time want a machine that answers: the campaigns go last, one by one.
    projects: [
      {
        extends: true,
        test: {
          name: 'tests',
          include: ['tests/**/*.test.ts'],
          exclude: CAMPAIGNS,
          benchmark: { include: ['tests/bench/**/*.bench.ts'] },
          // Half of the long tests wait for a serial line.
          maxWorkers: 2,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: 'campaigns',
          include: CAMPAIGNS,
          benchmark: { include: [] },
          maxWorkers: 1,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
