import type { Assessment } from '../schema/assessment.ts';

const DOTTED = /^\d{1,9}(\.\d{1,9}){0,7}$/;

/**
 * Which of two firmware versions is the older? Negative where the first is, positive where the second is, 0 where they are one,
 * `undefined` where nothing says. A list of versions, oldest first, decides for those in it; versions of dotted numbers are
 * compared number by number, a missing one counting as 0. The rule of dotted numbers is common practice, without a source.
 */
export const compareFirmware = (a: string, b: string, listed: readonly string[] = []): number | undefined => {
  if (a === b) return 0;
  const [first, second] = [listed.indexOf(a), listed.indexOf(b)];
  if (first >= 0 && second >= 0) return first - second;
  if (!(DOTTED.test(a) && DOTTED.test(b))) return undefined;
  const [left, right] = [a, b].map((version) => version.split('.').map(Number)) as [number[], number[]];
  for (let index = 0; index < Math.max(left.length, right.length); index += 1) {
    const difference = (left[index] ?? 0) - (right[index] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
};

/** Which firmware had a specimen at a moment, by its own history? `undefined` before it begins, or where nothing is recorded. */
export const firmwareAt = (assessment: Assessment, specimen: string, moment: string): string | undefined => {
  const at = Date.parse(moment);
  const past = Object.values(assessment.specimens?.[specimen]?.firmware ?? {})
    .map(({ version, since }) => ({ version, since: Date.parse(since ?? '') }))
    .filter(({ since }) => since <= at)
    .sort((x, y) => x.since - y.since);
  return past.at(-1)?.version;
};
