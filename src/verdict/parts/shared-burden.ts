import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import type { Groundwork } from '../index-bases.ts';
import type { BurdenVerdict } from '../verdict.ts';
import type { Names } from '../words.ts';

/** What would the routes to all priority parts together save, were one fastener already released? Most first. */
export const burdenVerdicts = (
  _groundwork: Groundwork,
  _readings: Interpretations,
  _names: Names,
): readonly BurdenVerdict[] => [];
