/** Weights of one question by answer, as they were typed. */
export type TypedWeights = Readonly<Record<string, string>>;

const WEIGHT = /^\d{1,12}(?:\.\d{1,12})?(?:\/[1-9]\d{0,11})?$/;

const NO_WEIGHT = 'give a weight, 0 if it is ruled out';
const NOT_A_WEIGHT = 'write a number from 0 up, or a fraction such as 1/3';

/** What is wrong with typed weights? By answer, in words; under `''` what is wrong with all of them together. */
export const weightFaults = (weights: TypedWeights): Readonly<Record<string, string>> => {
  const faults = Object.entries(weights).flatMap(([answer, typed]) =>
    WEIGHT.test(typed) ? [] : [[answer, typed === '' ? NO_WEIGHT : NOT_A_WEIGHT] as const],
  );
  if (faults.length > 0) return Object.fromEntries(faults);
  const isNothing = Object.values(weights).every((typed) => !/^[^/]*[1-9]/.test(typed));
  return isNothing ? { '': 'Give at least one answer a weight above 0.' } : {};
};
