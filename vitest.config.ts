import { defineConfig } from 'vitest/config';
import { SummaryReporter } from './tools/summary-reporter.ts';

export default defineConfig(({ mode }) => ({
  test: {
    include: ['src/**/*.test.ts', 'test/**/*.test.ts', 'tools/**/*.test.ts', 'bench/**/*.test.ts'],
    exclude: ['**/node_modules/**', '**/dist/**'],
    env: mode === 'deep' ? { UNFASTEN_DEEP: '1' } : {},
    globalSetup: ['test/e2e/provide-browser.ts'],
    // Two workers: the suite is sized for a two-core machine, and searches slow each other beyond that.
    maxWorkers: 2,
    // Files of one worker share their modules: loading them anew for each of two hundred files took half of the unit tests' time.
    isolate: false,
    testTimeout: mode === 'deep' ? 3_600_000 : 180_000,
    hookTimeout: 300_000,
    reporters: ['default', new SummaryReporter()],
  },
}));
