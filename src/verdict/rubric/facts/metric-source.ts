import type { DevicePart } from '#record/device/device';
import type { Assessment } from '#record/schema/assessment';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import { roleName } from '#schemes/role-name';
import { type Groundwork, groundworkOf, indexBases, readingsOf } from '../../index-bases.ts';
import { scopeVerdict } from '../../scope-verdict.ts';
import { type RoleFinding, swapsForRubric } from '../../swaps/rubric-finding.ts';
import type { BasisVerdict, Verdict } from '../../verdict.ts';
import type { Presence } from '../metric-value.ts';

/** What of a verdict do metrics read? The bases of the index and its scope. */
export type IndexPart = {
  readonly bases: readonly Pick<BasisVerdict, 'basis' | 'figures' | 'low' | 'high' | 'mayBeNotScorable' | 'missing'>[];
  readonly scope: Verdict['scope'];
};

/**
 * From what are metrics worked out? The record, its verdict where it is at hand (else the index is worked out where a metric asks
 * for it), and findings of part swaps: those of the record's own swaps unless given.
 */
export interface FactsRequest {
  readonly assessment: Assessment;
  readonly verdict?: IndexPart;
  readonly swapFindings?: Readonly<Record<string, RoleFinding>>;
}

/** The same with what is worked out once a record. */
export interface MetricSource extends FactsRequest {
  readonly groundwork: Groundwork;
  readonly readings: Interpretations;
  /** The index, worked out when it is first asked for. */
  index(): IndexPart;
}

/** What are the metrics of one record worked out from? */
export const metricSourceOf = (request: FactsRequest): MetricSource => {
  const groundwork = groundworkOf(request.assessment);
  const readings = readingsOf(request.assessment);
  let index = request.verdict;
  return {
    ...request,
    swapFindings: request.swapFindings ?? swapsForRubric(request.assessment),
    groundwork,
    readings,
    index: () => {
      index ??= { bases: indexBases(groundwork, readings), scope: scopeVerdict(request.assessment) };
      return index;
    },
  };
};

/** Which parts of a role has the device? In the record's order. */
export const partsOfRole = ({ groundwork }: MetricSource, role: string): readonly DevicePart[] =>
  [...groundwork.source.device.parts.values()].filter((part) => part.role === role);

/** Has the product a part of a role? Yes where one is recorded or logged, no where it is known to be absent, else open. */
export const presenceOf = (source: MetricSource, role: string): Presence => {
  if (partsOfRole(source, role).length > 0) return { answer: 'yes', missing: [] };
  const { parts = {}, product } = source.assessment;
  const sheet: Readonly<Record<string, { readonly absent?: true | undefined } | undefined>> =
    product.scoreSheet?.parts ?? {};
  const isAbsent = Object.values(parts).some((part) => part.role === role && part.absent === true);
  if (isAbsent || sheet[role]?.absent === true) return { answer: 'no', missing: [] };
  const what = `whether the product has a part: ${roleName(role)}`;
  return {
    answer: 'open',
    missing: [{ address: 'parts', what, remedy: 'record the part, or record it as absent' }],
  };
};
