import { comesAsItems } from '#record/device/action-kinds';
import type { Device } from '#record/device/device';
import type { RouteAtom } from '../problem/route-problem.ts';

/**
 * How does one piece of work that lets several fasteners go look to the step counter? Pieces that come away as items are
 * counted together, less those that came off before (`already`); where none does, all pieces are. Undefined for no fastener.
 */
export const releaseOf = (
  fasteners: readonly string[],
  device: Device,
  already: ReadonlyMap<string, number> = new Map(),
): RouteAtom['releases'] => {
  const known = fasteners.map((id) => device.fasteners.get(id));
  const items = known.filter((one) => one !== undefined && comesAsItems(one.kind));
  const counted = items.length > 0 ? items : known;
  const [first] = counted;
  if (fasteners.length === 0) return undefined;
  const count = counted.reduce(
    (sum, one) => sum + Math.max(1, (one?.count ?? 1) - (already.get(one?.id ?? '') ?? 0)),
    0,
  );
  return { fastener: first?.id ?? fasteners[0] ?? '', count, asItems: items.length > 0 };
};
