import type { MissingFact } from '#quantity/explained';
import type { Assessment } from '#record/schema/assessment';
import type { FastenerClass, ToolClass } from '../eu-2023-1669/input.ts';
import type { Interpretations } from '../eu-2023-1669/interpretations.ts';
import type { ScopeVerdict } from '../eu-2023-1669/scope.ts';
import type { DutyState } from './duty-finding.ts';

/** One fastener or tool of a route with its class for the part: both ends the same where it is settled. */
export interface ClassOnRoute<C extends string> {
  readonly id: string;
  readonly name: string;
  readonly worst: C;
  readonly best: C;
  /** The same where the worst class that it fits is taken: a tool can come with the part and be on sale besides. */
  readonly other?: { readonly worst: C; readonly best: C };
  readonly missing: readonly MissingFact[];
  readonly evidence: readonly string[];
}

/** One shown route from the complete product to a part, as a duty looks at it. */
export interface DutyRoute {
  readonly basis: 'best found' | 'declared';
  readonly fasteners: readonly ClassOnRoute<FastenerClass>[];
  readonly tools: readonly ClassOnRoute<ToolClass>[];
  /** Where heat or solvent is used, in words. */
  readonly heat: readonly string[];
  readonly solvent: readonly string[];
  /** Parts that the route sets aside or frees. */
  readonly off: readonly string[];
  readonly actions: readonly string[];
  readonly evidence: readonly string[];
}

/** Which ways to a part does a duty admit? */
export interface ReleaseCriterion {
  readonly fasteners: ReadonlySet<string> | 'any';
  readonly tools: ReadonlySet<string>;
  readonly without: ReadonlySet<'heat' | 'solvent'>;
}

/**
 * The routes of a record. `admits`: is a route within the criterion shown, not excluded by what is on record, or impossible with
 * every way on record?
 */
export interface RouteBook {
  routesTo(part: string): readonly DutyRoute[];
  admits(part: string, criterion: ReleaseCriterion): 'shown' | 'possible' | 'none';
}

/**
 * What does it, after the diagnosis? `none`: the part is accepted. `pairing`: a link of the part to one device. `calibration`: a
 * calibration that needs no authorisation was missing. `software`: pairing or a bug, without more being told or told of it.
 * `open`: it is not established that software does it at all.
 */
export type SwapCause = 'none' | 'pairing' | 'calibration' | 'software' | 'open';

/** What swaps showed of one part, after their diagnosis: an effect on the scale E0 to E7, its cause, what is known of a notice. */
export interface SwapFinding {
  readonly part: string;
  readonly effect: 'E0' | 'E1' | 'E2' | 'E3' | 'E4' | 'E5' | 'E6' | 'E7';
  readonly cause: SwapCause;
  /** The explanations that still stand, in words. */
  readonly standing?: readonly string[];
  /** What kinds of pieces were fitted, in words, and as the record names them. */
  readonly pieces?: readonly string[];
  readonly kinds?: readonly string[];
  /** Ids of the runs that showed it. */
  readonly runs?: readonly string[];
  readonly dismissible?: boolean;
  readonly returns?: string;
  /** Whether the notice misleads: a judgement on its wording and on the part. */
  readonly misleading?: boolean;
  readonly firmware?: string;
  readonly on?: string;
  readonly evidence: readonly string[];
}

/** What are duties judged from? */
export interface DutySubject {
  readonly assessment: Assessment;
  readonly readings: Pick<Interpretations, 'available'>;
  readonly scope: ScopeVerdict;
  readonly routes: RouteBook;
  readonly swaps: readonly SwapFinding[];
}

/** A subject in front of one row: its jurisdiction, its parts, and what earlier rows came to. */
export interface RowSubject extends DutySubject {
  readonly jurisdiction: string;
  readonly parts: readonly string[] | 'any';
  readonly stateOf: (row: string) => DutyState | undefined;
}
