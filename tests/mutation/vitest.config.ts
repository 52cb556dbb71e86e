import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/unit/{plan,command,verify,alarm}/**/*.test.ts'],
    setupFiles: ['tests/support/fixed-chance.ts'],
    testTimeout: 60_000,
  },
});
