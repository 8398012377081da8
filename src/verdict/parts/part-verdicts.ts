import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import { isUsable } from '#routes/least-time/least-time';
import type { RouteProblem } from '#routes/problem/route-problem';
import type { BestFound } from '#routes/search/best-found';
import { blockingParts, dominators } from '#routes/search/dominators';
import { unreachableWords } from '#routes/search/unreachable';
import { itemsOfRoute } from '#routes/sequence/bench-sequence';
import { evidencedItems } from '#routes/sequence/item-evidence';
import { type BestSearch, searchBest } from '#schemes/eu-2023-1669/bases/best-search';
import { commonStretch } from '#schemes/eu-2023-1669/bases/common-order';
import type { BasisName } from '#schemes/eu-2023-1669/bases/index-inputs';
import { judgeSequence } from '#schemes/eu-2023-1669/bases/judge-sequence';
import type { ObservedBasis } from '#schemes/eu-2023-1669/bases/observed-basis';
import type { PartBasis } from '#schemes/eu-2023-1669/bases/part-basis';
import { PRIORITY_ROLES, type PriorityRole } from '#schemes/eu-2023-1669/input';
import type { PartVerdict, RouteVerdict } from '../verdict.ts';
import type { Names } from '../words.ts';
import type { PartsContext, TimedContext } from './parts-context.ts';
import { performedEndToEnd, reversibleOf } from './performed.ts';
import { routeVerdict } from './route-verdict.ts';
import { timedRoutes } from './timed-routes.ts';

/** How is every part of the device reached? In the record's order, each when it is asked for. */
export function* partVerdicts(context: PartsContext): Generator<PartVerdict> {
  const usable: RouteProblem = {
    ...context.groundwork.problems.pessimistic,
    actions: context.groundwork.problems.pessimistic.actions.filter(isUsable),
  };
  for (const part of context.groundwork.source.device.parts.values()) yield partVerdict(part, { ...context, usable });
}

const basisOf = (context: PartsContext, name: BasisName, part: DevicePart): PartBasis | undefined =>
  context.bases.find((candidate) => candidate.basis === name)?.inputs?.parts.get(part.id);

const partVerdict = (part: DevicePart, context: TimedContext): PartVerdict => {
  const { groundwork, readings } = context;
  const priority = (PRIORITY_ROLES as readonly string[]).includes(part.role ?? '')
    ? (part.role as PriorityRole)
    : undefined;
  const search = searchBest(groundwork.problems, { source: groundwork.source, readings, part: part.id });
  const shown = search.shown.kind === 'found' ? search.shown : undefined;
  return {
    part: part.id,
    name: part.name,
    ...optional('role', part.role),
    ...optional('priority', priority),
    ...optional('face', part.record?.face),
    ...optional('within', part.within),
    depth: depthOf(search, context.names),
    ...optional('best', shown ? bestRoute(part, shown, context) : undefined),
    ...observedRoutes(part, context),
    ...declaredRoute(part, context),
    ...(shown && priority ? timedRoutes(part, context) : {}),
    ...(shown ? structureOf(part, shown, context) : {}),
    reversible: reversibleOf(groundwork.source, part.id, { route: shown?.actions, nameOf: context.names.any }),
    missing: missingOf(part, context),
  };
};

const depthOf = ({ shown, possible }: BestSearch, names: Names): PartVerdict['depth'] => ({
  ...optional('shown', shown.kind === 'found' ? shown.steps : undefined),
  ...optional('atLeast', possible.kind === 'found' ? possible.bound : undefined),
  ...optional('why', shown.kind === 'unreachable' ? unreachableWords(shown, names.any) : undefined),
});

/** A property that is only there where it has a value. */
const optional = <K extends string, V>(key: K, value: V | undefined): { readonly [P in K]?: V } =>
  value === undefined ? {} : ({ [key]: value } as { readonly [P in K]?: V });

const bestRoute = (part: DevicePart, found: BestFound, context: PartsContext): RouteVerdict => {
  const { source, problems } = context.groundwork;
  const judging = { source, readings: context.readings, part: part.id };
  const judged = judgeSequence(evidencedItems(itemsOfRoute(found.actions), judging.source), {
    ...judging,
    ...commonStretch(problems, judging),
  });
  const sessions = performedEndToEnd(source, part.id, found.actions);
  const basis = basisOf(context, 'best', part);
  return {
    ...routeVerdict(part, judged, { basis, performed: sessions ? 'end-to-end' : 'put-together', context }),
    seconds: found.milliseconds / 1000,
    missingDurations: found.missingDurations,
    proved: found.proved,
    ...(found.proved ? {} : { bound: found.bound }),
    ...optional('session', sessions?.[0]),
  };
};

const observedRoutes = (part: DevicePart, context: PartsContext): Pick<PartVerdict, 'observed' | 'observedLow'> => {
  const basis = basisOf(context, 'observed', part) as ObservedBasis | undefined;
  if (!basis?.judged) return {};
  return {
    observed: {
      ...routeVerdict(part, basis.judged, { basis, performed: 'end-to-end', context }),
      ...optional('session', basis.sessions[0]),
    },
    ...optional('observedLow', basis.fewestSteps === basis.shownSteps ? undefined : basis.fewestSteps),
  };
};

const declaredRoute = (part: DevicePart, context: PartsContext): Pick<PartVerdict, 'declared'> => {
  const basis = basisOf(context, 'declared', part);
  if (!basis?.judged) return {};
  return { declared: routeVerdict(part, basis.judged, { basis, performed: 'document', context }) };
};

/** Which part came off last before this one on its best route, what comes off only to give access, and what no route avoids? */
const structureOf = (
  part: DevicePart,
  found: BestFound,
  { groundwork }: PartsContext,
): Pick<PartVerdict, 'after' | 'blocking' | 'mandatory'> => {
  const target = `free/${part.id}` as const;
  const blocking = blockingParts(found.actions, [target]);
  const onEvery = dominators(groundwork.problems.pessimistic, target, {});
  return { ...optional('after', blocking.at(-1)), blocking, ...optional('mandatory', onEvery?.actions) };
};

/** Everything open that a figure of the part on some basis depends on, each once. */
const missingOf = (part: DevicePart, context: PartsContext): readonly MissingFact[] => {
  const facts = (['declared', 'observed', 'best'] as const).flatMap((name) => {
    const basis = basisOf(context, name, part);
    if (!basis) return [];
    const { wide, main } = basis;
    const findings = [wide.steps, wide.fastener, wide.tool, main.steps, main.fastener, main.tool];
    return findings.flatMap((finding) => (finding.state === 'open' ? finding.missing : []));
  });
  return [...new Map(facts.map((fact) => [`${fact.address}\n${fact.what}`, fact])).values()];
};
