import type { Reporter, TestModule } from 'vitest/node';

/** How many tests passed and failed, and did any file fail to load? A file that cannot load counts as one failure. */
export interface Tally {
  passed: number;
  failed: number;
}

/** What did this run come to? Counts the test cases of all modules, and every load or unhandled error as a failure. */
export function tally(modules: readonly TestModule[], unhandledErrors: number): Tally {
  const total: Tally = { passed: 0, failed: unhandledErrors };
  for (const module of modules) {
    if (module.errors().length > 0) total.failed += 1;
    for (const test of module.children.allTests()) {
      const { state } = test.result();
      if (state === 'passed') total.passed += 1;
      if (state === 'failed') total.failed += 1;
    }
  }
  return total;
}

/** Which line ends the run? Prints `N passed, N failed` alone on the last line, so that a script can read it. */
export class SummaryReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    const { passed, failed } = tally(modules, unhandledErrors.length);
    process.on('exit', () => {
      process.stdout.write(`${passed} passed, ${failed} failed\n`);
    });
  }
}
