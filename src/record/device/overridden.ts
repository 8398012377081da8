import type { Assessment } from '../schema/assessment.ts';

/** Which addresses does a named decision override, such as `fasteners/ear-flex/requires/isolation`? Without a leading slash. */
export const overriddenAddresses = (assessment: Assessment): ReadonlySet<string> =>
  new Set(Object.values(assessment.decisions ?? {}).map((decision) => decision.overrides.replace(/^\//, '')));
