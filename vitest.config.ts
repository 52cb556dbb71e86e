import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/system/build.ts'],
    setupFiles: ['tests/support/fixed-chance.ts'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    reporters: ['default', './tests/support/closing-line.ts'],
    // Half of the long tests wait for a serial line.
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
