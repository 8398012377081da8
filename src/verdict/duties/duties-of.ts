import type { Assessment } from '#record/schema/assessment';
import type { DutyFinding } from '#schemes/duties/duty-finding';
import type { SwapFinding } from '#schemes/duties/duty-subject';
import { DUTY_TABLES } from '#schemes/duties/duty-tables';
import { judgeDuties } from '#schemes/duties/judge-duties';
import { type Groundwork, groundworkOf, readingsOf } from '../index-bases.ts';
import { scopeVerdict } from '../scope-verdict.ts';
import { swapsForDuties } from '../swaps/duty-findings.ts';
import { routeBook } from './route-book.ts';

/** What else are duties judged from, where it is at hand? */
export interface DutiesOptions {
  /** The groundwork of the verdict, so that its routes are not sought anew. */
  readonly groundwork?: Groundwork;
  /** What swaps showed after their diagnosis; those of the record unless given. */
  readonly swaps?: readonly SwapFinding[];
}

/**
 * What does a record show of the legal duties, row by row? Observations, no advice. Routes, spare parts, information, updates,
 * days and swap findings as recorded; whatever has no fact on record is not shown and says which fact.
 */
export const dutiesOf = (assessment: Assessment, options: DutiesOptions = {}): readonly DutyFinding[] => {
  const { groundwork = groundworkOf(assessment), swaps = swapsForDuties(assessment) } = options;
  const readings = readingsOf(assessment);
  return judgeDuties(DUTY_TABLES, {
    assessment,
    readings,
    scope: scopeVerdict(assessment),
    routes: routeBook(groundwork, readings),
    swaps,
  });
};
