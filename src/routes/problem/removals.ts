import { durationMilliseconds } from '#quantity/duration';
import { meanOf } from '#quantity/statistics';
import type { DevicePart } from '#record/device/device';
import { toolSet } from '#record/device/tool-set';
import { durationKey, type LoggedRemoval } from '#record/log/experience';
import type { RouteSource } from './from-record.ts';
import { accessOf, type Building } from './releases.ts';
import type { Fact, Reach, RouteAction, RouteAtom } from './route-problem.ts';
import { undescribedHolders } from './undescribed-holders.ts';

type Becomes = 'aside' | 'free';

/**
 * How may a part be moved away with its contents? Lifted free once every fastener that crosses its boundary is released; laid
 * aside while those that are tethers hold on, where it has a tether or was laid aside on the bench. Pessimistically fasteners that
 * nobody described hold it too, where nothing shows that they do not.
 */
export const removals = (part: DevicePart, source: RouteSource, building: Building): RouteAction[] => {
  const access = accessOf(part.id, source, building);
  if (!access) return [];
  const isTether = (id: string): boolean => source.device.fasteners.get(id)?.tether === true;
  const tight = part.crossing.filter((id) => !isTether(id)).map((id): Fact => `released/${id}`);
  const slack = part.crossing.filter(isTether).map((id): Fact => `released/${id}`);
  const off = [...part.cluster].map((id): Fact => `off/${id}`);
  const open = (becomes: Becomes): readonly Fact[] =>
    building.reach === 'optimistic'
      ? []
      : undescribedHolders(part.id, becomes, source).map((id): Fact => `released/${id}`);
  const move = (becomes: Becomes, needs: readonly Fact[], gives: readonly Fact[]): RouteAction[] =>
    manners(part, becomes, { source, reach: building.reach }).map(({ atoms, shown }, index) => ({
      id: `${becomes === 'free' ? 'lift' : 'fold'}/${part.id}${index === 0 ? '' : `/${index + 1}`}`,
      kind: becomes === 'free' ? 'lift' : 'fold',
      subject: part.id,
      atoms,
      needs: [...new Set([...access.needs, ...needs, ...open(becomes)])],
      anyOf: access.anyOf,
      gives,
      ...(shown === undefined ? {} : { shown }),
    }));
  const lift = move('free', [...tight, ...slack], [`free/${part.id}`, ...off]);
  const folds = slack.length > 0 || loggedAs(part, 'aside', source).length > 0;
  return folds ? [...lift, ...move('aside', tight, off)] : lift;
};

const loggedAs = (part: DevicePart, becomes: Becomes, source: RouteSource): readonly LoggedRemoval[] =>
  (source.experience.removals.get(part.id) ?? []).filter((other) => other.becomes === becomes);

interface Manner {
  readonly atoms: readonly RouteAtom[];
  readonly shown: RouteAction['shown'];
}

/** In which manners does a part move away? As described, else as logged, else by bare hands. */
const manners = (
  part: DevicePart,
  becomes: Becomes,
  context: { readonly source: RouteSource; readonly reach: Reach },
): readonly Manner[] => {
  const shown = moveShown(part, becomes, context);
  const milliseconds = moveMilliseconds(part, becomes, context.source);
  return atomsOf(part, becomes, context.source).map((atoms) => ({
    shown,
    atoms: atoms.map((atom, index) =>
      index === atoms.length - 1
        ? { ...atom, ...(milliseconds === undefined ? {} : { milliseconds }), removes: { part: part.id, becomes } }
        : atom,
    ),
  }));
};

const atomsOf = (part: DevicePart, becomes: Becomes, source: RouteSource): readonly (readonly RouteAtom[])[] => {
  const described = part.record?.removal?.actions;
  if (described)
    return [
      described.map(({ do: verb, tools, takes, place }) => {
        const milliseconds = durationMilliseconds(takes);
        return {
          do: verb,
          tools: toolSet(tools),
          ...(milliseconds === undefined ? {} : { milliseconds }),
          ...(place === undefined ? {} : { place }),
        };
      }),
    ];
  const move = becomes === 'free' ? 'lift' : 'fold-aside';
  const sets = new Map<string, string[]>();
  for (const logged of loggedAs(part, becomes, source))
    if (logged.do === move) sets.set(toolSet(logged.tools).join('\n'), toolSet(logged.tools));
  const tools = [...sets.values()].sort((a, b) => a.length - b.length || (a.join('\n') < b.join('\n') ? -1 : 1));
  return (tools.length > 0 ? tools : [[]]).map((set) => [{ do: move, tools: set }]);
};

const moveMilliseconds = (part: DevicePart, becomes: Becomes, source: RouteSource): number | undefined => {
  const measured = source.experience.durations.get(durationKey(part.id, undefined, becomes)) ?? [];
  if (measured.length > 0) return Math.round(meanOf(measured));
  const removal = part.record?.removal;
  return durationMilliseconds(removal?.actions?.at(-1)?.takes ?? removal?.takes);
};

/**
 * How was it shown that a part moves so? On the bench; else, for a part whose fasteners are described, by whatever trial or
 * sight shows it reachable. A part that only a log names is shown free only where it came free: what else may hold it is not
 * known.
 */
const moveShown = (
  part: DevicePart,
  becomes: Becomes,
  { source, reach }: { readonly source: RouteSource; readonly reach: Reach },
): RouteAction['shown'] => {
  if (loggedAs(part, becomes, source).length > 0) return 'bench';
  if (part.record && (source.trials.get(part.id)?.positive.length ?? 0) > 0) return 'bench';
  return part.record?.behind !== undefined || reach === 'optimistic' ? 'sight' : undefined;
};
