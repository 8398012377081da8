import { durationMilliseconds } from '#quantity/duration';
import { meanOf } from '#quantity/statistics';
import type { Device, DeviceFastener, DevicePart } from '#record/device/device';
import { pickupMilliseconds } from '#record/log/durations';
import { durationKey, type Experience, wayKey } from '#record/log/experience';
import type { SubjectTrials } from '#record/log/trials';
import type { Assessment, Way } from '#record/schema/assessment';
import { PRIORITY_ROLE_NAMES } from './priority-roles.ts';
import { shownByProcedure } from './procedures.ts';
import { reachCondition } from './reachability.ts';
import { precedencesOf } from './requirements.ts';
import type { Fact, Reach, RouteAction, RouteAtom, RouteProblem, RouteTool } from './route-problem.ts';
import { wayOdds } from './way-odds.ts';

/** Everything a planning problem is built from: the record, its device, trials and experience. */
export interface RouteSource {
  readonly assessment: Assessment;
  readonly device: Device;
  readonly trials: ReadonlyMap<string, SubjectTrials>;
  readonly experience: Experience;
}

/** Kinds of fastener whose pieces come away as items (row 1 of the interpretations: screws, strips). */
const ITEM_KINDS = new Set(['screw', 'nut', 'pin', 'stretch-release-strip', 'rivet', 'tape']);

const NO_TRIALS: SubjectTrials = { positive: [], negative: [], sight: undefined };

/**
 * What may be done to this device, from the complete product? One action for each way of each fastener, one for lifting each
 * part away, one for laying a part aside where a cable allows it. Pessimistic: only what trials or sight prove reachable;
 * optimistic: whatever no failed trial excludes, actions never shown included.
 */
export const routeProblem = (source: RouteSource, reach: Reach): RouteProblem => {
  const unreachable: Record<string, string> = {};
  const actions: RouteAction[] = [];
  for (const fastener of source.device.fasteners.values())
    actions.push(...releases(fastener, source, { reach, unreachable }));
  for (const part of source.device.parts.values()) actions.push(...removals(part, source, { reach, unreachable }));
  const priorityParts = [...source.device.parts.values()]
    .filter((part) => PRIORITY_ROLE_NAMES.has(part.role ?? ''))
    .map((part) => part.id);
  return { reach, tools: toolsOf(source.assessment, actions), actions, priorityParts, unreachable };
};

interface Building {
  readonly reach: Reach;
  readonly unreachable: Record<string, string>;
}

/** Which conditions of access and precedence stand before a part or fastener? Undefined, with the reason kept, where nothing shows it reachable. */
const conditions = (
  subject: string,
  source: RouteSource,
  { reach, unreachable }: Building,
): { needs: readonly Fact[]; anyOf: RouteAction['anyOf'] } | undefined => {
  const condition = reachCondition(subject, source.trials.get(subject) ?? NO_TRIALS, { device: source.device, reach });
  if (!condition.reachable) {
    unreachable[subject] = condition.why;
    return undefined;
  }
  const first = precedencesOf(subject, source.assessment, source.device).flatMap((precedence) => precedence.first);
  return { needs: [...condition.needs, ...first], anyOf: condition.anyOf };
};

const releases = (fastener: DeviceFastener, source: RouteSource, building: Building): RouteAction[] => {
  const access = conditions(fastener.id, source, building);
  if (!access) return [];
  const ways = Object.entries(
    Object.keys(fastener.ways).length > 0 ? fastener.ways : (source.experience.loggedWays.get(fastener.id) ?? {}),
  );
  const actions = ways.map(([id, way]) => release(fastener, { id, way }, { source, access, reach: building.reach }));
  if (actions.length === 0) {
    building.unreachable[fastener.id] = `no way of releasing ${fastener.id} is recorded`;
    if (building.reach === 'optimistic') actions.push(unknownRelease(fastener, access));
  }
  return actions;
};

/** What may releasing a fastener cost at best, when no way is known? Nothing: an optimistic bound only. */
const unknownRelease = (
  fastener: DeviceFastener,
  access: { needs: readonly Fact[]; anyOf: RouteAction['anyOf'] },
): RouteAction => ({
  id: `release/${fastener.id}/unknown`,
  kind: 'release',
  subject: fastener.id,
  atoms: [],
  needs: unique(access.needs),
  anyOf: access.anyOf,
  gives: [`released/${fastener.id}`],
  shown: 'sight',
});

const release = (
  fastener: DeviceFastener,
  { id, way }: { readonly id: string; readonly way: Way },
  {
    source,
    access,
    reach,
  }: {
    readonly source: RouteSource;
    readonly access: { needs: readonly Fact[]; anyOf: RouteAction['anyOf'] };
    readonly reach: Reach;
  },
): RouteAction => {
  const done = (source.experience.ways.get(wayKey(fastener.id, id))?.done ?? 0) > 0;
  const shown = done
    ? 'bench'
    : shownByProcedure(source.assessment, fastener, id)
      ? 'procedure'
      : reach === 'optimistic'
        ? 'sight'
        : undefined;
  const odds = wayOdds(way, source.experience.ways.get(wayKey(fastener.id, id)));
  return {
    id: `release/${fastener.id}/${id}`,
    kind: 'release',
    subject: fastener.id,
    way: id,
    atoms: wayAtoms(fastener, { id, way }, source),
    needs: unique(access.needs),
    anyOf: access.anyOf,
    gives: [`released/${fastener.id}`],
    ...(way.leaves === undefined ? {} : { leaves: way.leaves }),
    ...(odds === undefined ? {} : { odds }),
    ...(shown === undefined ? {} : { shown }),
  };
};

/** Which atoms does a way have? Its actions in order; the last that is not done after the release is the one that releases. */
const wayAtoms = (
  fastener: DeviceFastener,
  { id, way }: { readonly id: string; readonly way: Way },
  source: RouteSource,
): RouteAtom[] => {
  const last = way.actions.findLastIndex((action) => action.afterRelease !== true);
  return way.actions.map((action, index) => {
    const measured = source.experience.durations.get(durationKey(fastener.id, id, action.do));
    const milliseconds =
      measured && measured.length > 0 ? Math.round(meanOf(measured)) : durationMilliseconds(action.takes);
    return {
      do: action.do,
      tools: unique([...(action.tools ?? [])].sort()),
      ...(milliseconds === undefined ? {} : { milliseconds }),
      ...(action.place === undefined ? {} : { place: action.place }),
      ...(action.afterRelease === undefined ? {} : { afterRelease: action.afterRelease }),
      ...(index === last
        ? { releases: { fastener: fastener.id, count: fastener.count, asItems: ITEM_KINDS.has(fastener.kind) } }
        : {}),
    };
  });
};

const removals = (part: DevicePart, source: RouteSource, building: Building): RouteAction[] => {
  const access = conditions(part.id, source, building);
  if (!access) return [];
  const holding = part.crossing.map((id): Fact => `released/${id}`);
  const off = [...part.cluster].map((id): Fact => `off/${id}`);
  const lift = removal(part, 'free', { source, reach: building.reach }).map(
    (made, index): RouteAction => ({
      ...made,
      id: index === 0 ? `lift/${part.id}` : `lift/${part.id}/${index + 1}`,
      kind: 'lift',
      needs: unique([...access.needs, ...holding]),
      anyOf: access.anyOf,
      gives: [`free/${part.id}`, ...off],
    }),
  );
  const slack = part.crossing.filter((id) => source.device.fasteners.get(id)?.tether === true);
  if (slack.length === 0) return lift;
  const tight = holding.filter((fact) => !slack.some((id) => fact === `released/${id}`));
  const fold = removal(part, 'aside', { source, reach: building.reach }).map(
    (made, index): RouteAction => ({
      ...made,
      id: index === 0 ? `fold/${part.id}` : `fold/${part.id}/${index + 1}`,
      kind: 'fold',
      needs: unique([...access.needs, ...tight]),
      anyOf: access.anyOf,
      gives: off,
    }),
  );
  return [...lift, ...fold];
};

/** In which manners does a part move away? As described, else as logged, else lifted by bare hands. */
const removal = (
  part: DevicePart,
  becomes: 'aside' | 'free',
  { source, reach }: { readonly source: RouteSource; readonly reach: Reach },
): { subject: string; atoms: RouteAtom[]; shown?: 'bench' | 'procedure' | 'sight' }[] => {
  const logged = (source.experience.removals.get(part.id) ?? []).filter((other) => other.becomes === becomes);
  const measured = source.experience.durations.get(durationKey(part.id, undefined, becomes));
  const milliseconds =
    measured && measured.length > 0 ? Math.round(meanOf(measured)) : durationMilliseconds(part.record?.removal?.takes);
  const shown =
    logged.length > 0 || (source.trials.get(part.id)?.positive.length ?? 0) > 0
      ? 'bench'
      : part.record?.behind !== undefined || reach === 'optimistic'
        ? 'sight'
        : undefined;
  const described = part.record?.removal?.actions;
  const move = becomes === 'free' ? ('lift' as const) : ('fold-aside' as const);
  const manners = described
    ? [described.map((action) => ({ do: action.do, tools: unique([...(action.tools ?? [])].sort()) }))]
    : distinctTools(logged.filter((other) => other.do === move)).map((tools) => [{ do: move, tools }]);
  return (manners.length > 0 ? manners : [[{ do: move, tools: [] as string[] }]]).map((atoms) => ({
    subject: part.id,
    atoms: atoms.map((atom, index) =>
      index === atoms.length - 1
        ? { ...atom, ...(milliseconds === undefined ? {} : { milliseconds }), removes: { part: part.id, becomes } }
        : atom,
    ),
    ...(shown === undefined ? {} : { shown }),
  }));
};

const distinctTools = (removals: readonly { readonly tools: readonly string[] | undefined }[]): string[][] => {
  const sets = new Map<string, string[]>();
  for (const { tools } of removals) {
    const sorted = unique([...(tools ?? [])].sort());
    sets.set(sorted.join('\n'), sorted);
  }
  return [...sets.values()].sort((a, b) => a.length - b.length || (a.join() < b.join() ? -1 : 1));
};

const unique = <T>(list: readonly T[]): T[] => [...new Set(list)];

const toolsOf = (assessment: Assessment, actions: readonly RouteAction[]): RouteTool[] => {
  const ids = unique(actions.flatMap((action) => action.atoms.flatMap((atom) => atom.tools))).sort();
  return ids.map((id) => ({
    id,
    pickupMilliseconds: pickupMilliseconds(assessment, [id]),
    holdingAid: assessment.tools?.[id]?.holdingAid === true,
  }));
};
