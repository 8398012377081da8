import { durationMilliseconds } from '#quantity/duration';
import { meanOf } from '#quantity/statistics';
import { comesAsItems } from '#record/device/action-kinds';
import type { DeviceFastener } from '#record/device/device';
import { toolSet } from '#record/device/tool-set';
import { durationKey, wayKey } from '#record/log/experience';
import type { Way } from '#record/schema/assessment';
import type { RouteSource } from './from-record.ts';
import { shownByProcedure } from './procedures.ts';
import type { Fact, Reach, RouteAction, RouteAtom } from './route-problem.ts';
import { wayOdds } from './way-odds.ts';
import { workCondition } from './work-condition.ts';

/** Under which reading are actions made, and where are the reasons kept for what cannot be reached? */
export interface Building {
  readonly reach: Reach;
  readonly unreachable: Record<string, string>;
}

type Access = Pick<RouteAction, 'needs' | 'anyOf'>;

/** In which conditions may this be worked on? Undefined, with the reason kept, where nothing shows it reachable. */
export const accessOf = (subject: string, source: RouteSource, building: Building): Access | undefined => {
  const condition = workCondition(subject, source, building.reach);
  if (condition.reachable) return { needs: condition.needs, anyOf: condition.anyOf };
  building.unreachable[subject] = condition.why;
  return undefined;
};

/** How may a fastener be released? One action for each of its ways, as recorded or else as logged. */
export const releases = (fastener: DeviceFastener, source: RouteSource, building: Building): RouteAction[] => {
  const access = accessOf(fastener.id, source, building);
  if (!access) return [];
  const recorded = Object.entries(fastener.ways);
  const ways = recorded.length > 0 ? recorded : Object.entries(source.experience.loggedWays.get(fastener.id) ?? {});
  if (ways.length > 0)
    return ways
      .map(([id, way]) => release(fastener, { id, way, access }, { source, reach: building.reach }))
      .sort((a, b) => shownRank(a) - shownRank(b) || (a.id < b.id ? -1 : 1));
  if (building.reach === 'optimistic') return [unknownRelease(fastener, access)];
  building.unreachable[fastener.id] = 'no way of releasing it is recorded';
  return [];
};

/** Among ways as good as each other the one done at the bench goes first, then the maker's: no order of a map decides. */
const shownRank = ({ shown }: RouteAction): number => (shown === 'bench' ? 0 : shown === 'procedure' ? 1 : 2);

/** What may releasing a fastener cost at best, when no way is known? Nothing: an optimistic bound only. */
const unknownRelease = (fastener: DeviceFastener, access: Access): RouteAction => ({
  id: `release/${fastener.id}/unknown`,
  kind: 'release',
  subject: fastener.id,
  atoms: [],
  ...access,
  gives: [`released/${fastener.id}`],
  shown: 'sight',
});

const release = (
  fastener: DeviceFastener,
  { id, way, access }: { readonly id: string; readonly way: Way; readonly access: Access },
  { source, reach }: { readonly source: RouteSource; readonly reach: Reach },
): RouteAction => {
  const experience = source.experience.ways.get(wayKey(fastener.id, id));
  const shown = wayShown(fastener, id, { source, reach });
  const odds = wayOdds(way, experience);
  const gives: readonly Fact[] = [`released/${fastener.id}`];
  return {
    id: `release/${fastener.id}/${id}`,
    kind: 'release',
    subject: fastener.id,
    way: id,
    atoms: wayAtoms(fastener, { id, way }, source),
    ...access,
    gives,
    ...(way.leaves === undefined ? {} : { leaves: way.leaves }),
    ...(odds === undefined ? {} : { odds }),
    ...(shown === undefined ? {} : { shown }),
  };
};

/** How was a way shown to work? Done on a bench without damage to the product, or standing in the maker's procedure; else it counts only where nothing excludes it. */
const wayShown = (
  fastener: DeviceFastener,
  way: string,
  { source, reach }: { readonly source: RouteSource; readonly reach: Reach },
): RouteAction['shown'] => {
  if ((source.experience.ways.get(wayKey(fastener.id, way))?.done ?? 0) > 0) return 'bench';
  if (shownByProcedure(source.assessment, fastener, way)) return 'procedure';
  return reach === 'optimistic' ? 'sight' : undefined;
};

/** Which atoms does a way have? Its actions in order; the last that is not done after the release is the one that releases. */
const wayAtoms = (
  fastener: DeviceFastener,
  { id, way }: { readonly id: string; readonly way: Way },
  { experience }: RouteSource,
): RouteAtom[] => {
  const last = way.actions.findLastIndex((action) => action.afterRelease !== true);
  const { count, kind } = fastener;
  return way.actions.map((action, index) => {
    const measured = experience.durations.get(durationKey(fastener.id, id, action.do)) ?? [];
    const milliseconds = measured.length > 0 ? Math.round(meanOf(measured)) : durationMilliseconds(action.takes);
    return {
      do: action.do,
      tools: toolSet(action.tools),
      ...(milliseconds === undefined ? {} : { milliseconds }),
      ...(action.place === undefined ? {} : { place: action.place }),
      ...(action.afterRelease === undefined ? {} : { afterRelease: action.afterRelease }),
      ...(index === last ? { releases: { fastener: fastener.id, count, asItems: comesAsItems(kind) } } : {}),
    };
  });
};
