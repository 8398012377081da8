import { EXPLANATIONS as LISTED } from '#record/schema/explanations';

/** Why may a foreign part behave otherwise than the own one? The record's list, since it may give each its odds. */
export const EXPLANATIONS = LISTED;

/** One rival explanation. */
export type Explanation = (typeof EXPLANATIONS)[number];
