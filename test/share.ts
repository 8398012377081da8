/**
 * How many cases does this test run? The bounded share by default; the full number under `npm run test:deep`
 * (UNFASTEN_DEEP=1). Both are counts of cases, not times, so that a slow machine tests the same things.
 */
export function share(bounded: number, full: number): number {
  return process.env.UNFASTEN_DEEP === '1' ? full : bounded;
}
