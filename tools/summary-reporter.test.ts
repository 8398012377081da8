import { expect, test } from 'vitest';
import type { TestModule } from 'vitest/node';
import { tally } from './summary-reporter.ts';

function moduleOf(states: readonly string[], loadErrors: number): TestModule {
  const tests = states.map((state) => ({ result: () => ({ state }) }));
  const stub = {
    errors: () => Array.from({ length: loadErrors }, () => new Error('load')),
    children: { allTests: () => tests },
  };
  return stub as unknown as TestModule;
}

test('tally counts passed and failed cases of all modules and leaves skipped ones out', () => {
  const modules = [moduleOf(['passed', 'passed', 'skipped'], 0), moduleOf(['failed', 'passed'], 0)];
  expect(tally(modules, 0)).toEqual({ passed: 3, failed: 1 });
});

test('tally counts a file that does not load and an unhandled error as failures', () => {
  expect(tally([moduleOf([], 2)], 1)).toEqual({ passed: 0, failed: 2 });
});
