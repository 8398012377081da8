import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import { expectedTime } from '#routes/expected/expected-time';
import { isUsable, leastTime } from '#routes/least-time/least-time';
import type { RouteProblem } from '#routes/problem/route-problem';
import type { BestFound } from '#routes/search/best-found';
import { itemsOfRoute } from '#routes/sequence/bench-sequence';
import { FASTENER_POINTS, TOOL_POINTS } from '#schemes/eu-2023-1669/bands';
import { searchBest } from '#schemes/eu-2023-1669/bases/best-basis';
import type { BasisName } from '#schemes/eu-2023-1669/bases/index-inputs';
import { type JudgedSequence, judgeSequence } from '#schemes/eu-2023-1669/bases/judge-sequence';
import type { ObservedBasis } from '#schemes/eu-2023-1669/bases/observed-basis';
import type { PartBasis } from '#schemes/eu-2023-1669/bases/part-basis';
import { PRIORITY_ROLES, type PriorityRole } from '#schemes/eu-2023-1669/input';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import type { Groundwork, IndexBasis } from '../index-bases.ts';
import type { PartVerdict, RouteVerdict } from '../verdict.ts';
import type { Names } from '../words.ts';
import { ledgerLines } from './ledger.ts';
import { performedEndToEnd, reversibleOf } from './performed.ts';

/** What is every part judged from? */
export interface PartsContext {
  readonly groundwork: Groundwork;
  readonly readings: Interpretations;
  readonly bases: readonly IndexBasis[];
  readonly names: Names;
  /** What damage and being stranded are taken to cost in the expected time [ms]. */
  readonly losses: { readonly damageMilliseconds: number; readonly strandedMilliseconds: number };
  /** States a search may expand. */
  readonly nodeLimit: number;
}

/** How is every part of the device reached? In the record's order. */
export const partVerdicts = (context: PartsContext): readonly PartVerdict[] => {
  const usable: RouteProblem = {
    ...context.groundwork.problems.pessimistic,
    actions: context.groundwork.problems.pessimistic.actions.filter(isUsable),
  };
  return [...context.groundwork.source.device.parts.values()].map((part) => partVerdict(part, { ...context, usable }));
};

const partVerdict = (part: DevicePart, context: PartsContext & { readonly usable: RouteProblem }): PartVerdict => {
  const { groundwork, readings } = context;
  const priority = (PRIORITY_ROLES as readonly string[]).includes(part.role ?? '')
    ? (part.role as PriorityRole)
    : undefined;
  const basis = (name: BasisName): PartBasis | undefined =>
    context.bases.find((candidate) => candidate.basis === name)?.inputs?.parts.get(part.id);
  const search = searchBest(groundwork.problems, { source: groundwork.source, readings, part: part.id });
  const shown = search.shown.kind === 'found' ? search.shown : undefined;
  const observed = basis('observed') as ObservedBasis | undefined;
  const declared = basis('declared');
  const missing = distinct(['declared', 'observed', 'best'].flatMap((name) => missingOf(basis(name as BasisName))));
  return {
    part: part.id,
    name: part.name,
    ...optional('role', part.role),
    ...optional('priority', priority),
    ...optional('face', part.record?.face),
    ...optional('within', part.within),
    depth: {
      ...optional('shown', shown?.steps),
      ...optional('atLeast', search.possible.kind === 'found' ? search.possible.bound : undefined),
      ...optional('why', search.shown.kind === 'unreachable' ? search.shown.why : undefined),
    },
    ...optional('best', shown ? bestRoute(part, shown, context) : undefined),
    ...optional(
      'observed',
      observed?.judged
        ? {
            ...routeOf(part, observed.judged, { basis: observed, performed: 'end-to-end', context }),
            ...optional('session', observed.sessions[0]),
          }
        : undefined,
    ),
    ...optional(
      'observedLow',
      observed && observed.fewestSteps !== observed.shownSteps ? observed.fewestSteps : undefined,
    ),
    ...optional(
      'declared',
      declared?.judged
        ? routeOf(part, declared.judged, { basis: declared, performed: 'document', context })
        : undefined,
    ),
    ...(shown && priority ? timed(part, context) : {}),
    ...(shown ? afterOf(part, shown) : {}),
    reversible: reversibleOf(groundwork.source, part.id, shown?.actions),
    missing,
  };
};

/** A property that is only there where it has a value. */
const optional = <K extends string, V>(key: K, value: V | undefined): { readonly [P in K]?: V } =>
  value === undefined ? {} : ({ [key]: value } as { readonly [P in K]?: V });

const missingOf = (basis: PartBasis | undefined): readonly MissingFact[] =>
  basis
    ? [
        basis.wide.steps,
        basis.wide.fastener,
        basis.wide.tool,
        basis.main.steps,
        basis.main.fastener,
        basis.main.tool,
      ].flatMap((finding) => (finding.state === 'open' ? finding.missing : []))
    : [];

const distinct = (facts: readonly MissingFact[]): readonly MissingFact[] => [
  ...new Map(facts.map((fact) => [`${fact.address}\n${fact.what}`, fact])).values(),
];

const bestRoute = (part: DevicePart, found: BestFound, context: PartsContext): RouteVerdict => {
  const judged = judgeSequence(itemsOfRoute(found.actions), {
    source: context.groundwork.source,
    readings: context.readings,
    part: part.id,
  });
  const sessions = performedEndToEnd(context.groundwork.source, part.id, found.actions);
  const basis = context.bases.find((candidate) => candidate.basis === 'best')?.inputs?.parts.get(part.id);
  return {
    ...routeOf(part, judged, { basis, performed: sessions ? 'end-to-end' : 'put-together', context }),
    seconds: found.milliseconds / 1000,
    missingDurations: found.missingDurations,
    proved: found.proved,
    ...(found.proved ? {} : { bound: found.bound }),
    ...optional('session', sessions?.[0]),
  };
};

const routeOf = (
  part: DevicePart,
  judged: JudgedSequence,
  at: {
    readonly basis: PartBasis | undefined;
    readonly performed: RouteVerdict['performed'];
    readonly context: PartsContext;
  },
): RouteVerdict => {
  const { source } = at.context.groundwork;
  const pairing = at.basis?.main.pairingSteps;
  const timedAtoms = judged.items.flatMap((item) => item.atoms);
  const known = timedAtoms.some((atom) => atom.milliseconds !== undefined);
  const { fastener, tool } = judged;
  return {
    steps: judged.steps,
    pairingSteps: pairing?.state === 'known' ? pairing.value : 0,
    ...(known ? { seconds: timedAtoms.reduce((sum, atom) => sum + (atom.milliseconds ?? 0), 0) / 1000 } : {}),
    missingDurations: judged.items
      .filter((item) => item.atoms.some((atom) => atom.milliseconds === undefined))
      .map((item) => item.address),
    fastenerPoints:
      fastener.worst === fastener.best && fastener.worst !== 'below-scale' ? FASTENER_POINTS[fastener.worst] : null,
    toolPoints: tool.worst === tool.best && tool.worst !== 'below-scale' ? TOOL_POINTS[tool.worst] : null,
    actions: judged.items.map((item) => item.address),
    lines: ledgerLines(judged, { source, names: at.context.names, part: part.id }),
    proved: true,
    performed: at.performed,
  };
};

/** Which part came off last before this one on its best route, and which came off only to give access? */
const afterOf = (
  part: DevicePart,
  found: BestFound,
): { readonly after?: string; readonly blocking: readonly string[] } => {
  const removed = [
    ...new Set(
      found.actions
        .filter((action) => action.kind !== 'release' && action.subject !== part.id)
        .map((action) => action.subject),
    ),
  ];
  const last = removed.at(-1);
  return { ...optional('after', last), blocking: removed };
};

/** The quickest route and the expected time of one priority part. */
const timed = (
  part: DevicePart,
  { usable, losses, nodeLimit }: PartsContext & { readonly usable: RouteProblem },
): Pick<PartVerdict, 'leastTime' | 'expected'> => {
  const target = `free/${part.id}` as const;
  const quickest = leastTime(usable, [target], { nodeLimit });
  const expected = expectedTime(usable, target, { losses, limits: { states: nodeLimit } });
  const note = [
    ...(expected.order.undecided.length > 0
      ? [
          `order not decidable between ways of ${expected.order.undecided.map(({ fact }) => (fact ?? '').replace('released/', '')).join(', ')}: too few tries`,
        ]
      : []),
    ...(expected.withoutTime.length > 0 ? [`no time known for ${expected.withoutTime.join(', ')}`] : []),
  ].join('; ');
  return {
    ...(quickest.milliseconds === undefined
      ? {}
      : { leastTime: { seconds: quickest.milliseconds / 1000, actions: quickest.actions, proved: quickest.proved } }),
    expected: {
      seconds: expected.workMilliseconds / 1000,
      stranded: expected.chances.stranded,
      damage: expected.chances.damaged,
      likeliest: expected.likeliest.tries.map((attempt) =>
        attempt.came === 'success' ? attempt.action : `${attempt.action}: ${attempt.came}`,
      ),
      ...(note === '' ? {} : { note }),
      exact: expected.isProved,
    },
  };
};
