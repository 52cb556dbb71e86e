import type { Reporter, TestModule } from 'vitest/node';

/** Closes a run with one plain line, `N passed, N failed`, whatever the other reporters print. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    const count = { passed: 0, failed: unhandledErrors.length, skipped: 0 };
    for (const module of modules) {
      let own = 0;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'pending') count.failed += 1;
        else count[state] += 1;
        own += 1;
      }
      if (own === 0) count.failed += 1; // a file that could not be collected has failed
    }
    const skipped = count.skipped > 0 ? `, ${String(count.skipped)} skipped` : '';
    process.on('exit', () => {
      process.stdout.write(`${String(count.passed)} passed, ${String(count.failed)} failed${skipped}\n`);
    });
  }
}
