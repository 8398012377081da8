import { UnfastenError } from '#quantity/unfasten-error';
import type { Part } from '../schema/assessment.ts';
import type { DeviceFastener } from './device.ts';
import { partOfJoint } from './joints.ts';

/** How deep may carriers stand inside each other? Beyond it what goes along grows with the square of the record. */
const MAX_CARRIER_DEPTH = 64;

/**
 * What goes along with each part? Itself and everything within it; circles of carriers are cut where they close. Throws a
 * located record error where carriers are nested deeper than {@link MAX_CARRIER_DEPTH}.
 */
export const clustersOf = (
  ids: readonly string[],
  records: Readonly<Record<string, Part>>,
): ReadonlyMap<string, ReadonlySet<string>> => {
  const clusters = new Map<string, Set<string>>(ids.map((id) => [id, new Set([id])]));
  for (const id of ids) {
    const seen = new Set<string>([id]);
    let carrier = records[id]?.within;
    for (; carrier !== undefined && !seen.has(carrier); carrier = records[carrier]?.within) {
      if (seen.size > MAX_CARRIER_DEPTH) throw tooDeep(id);
      seen.add(carrier);
      clusters.get(carrier)?.add(id);
    }
  }
  return clusters;
};

const tooDeep = (id: string): UnfastenError =>
  new UnfastenError('record', `Parts are carried more than ${MAX_CARRIER_DEPTH} deep`, {
    where: `parts.${id}.within`,
    value: id,
    remedy: 'Name the part that carries it on the bench, not every part around it.',
  });

/**
 * Which fasteners cross the boundary of each part with its contents? Those with exactly one end inside; the undescribed joint of
 * a part crosses that part's boundary alone, since nobody knows what it joins to. Linear in ends times carriers.
 */
export const crossingOf = (
  clusters: ReadonlyMap<string, ReadonlySet<string>>,
  fasteners: Iterable<DeviceFastener>,
): ReadonlyMap<string, readonly string[]> => {
  const carriers = carriersOf(clusters);
  const crossing = new Map<string, string[]>([...clusters.keys()].map((id) => [id, []]));
  for (const fastener of fasteners) {
    if (!fastener.between) {
      crossing.get(partOfJoint(fastener.id) ?? '')?.push(fastener.id);
      continue;
    }
    const [a, b] = fastener.between;
    for (const carrier of new Set([...(carriers.get(a) ?? []), ...(carriers.get(b) ?? [])])) {
      const cluster = clusters.get(carrier);
      if (cluster && cluster.has(a) !== cluster.has(b)) crossing.get(carrier)?.push(fastener.id);
    }
  }
  return crossing;
};

const carriersOf = (clusters: ReadonlyMap<string, ReadonlySet<string>>): ReadonlyMap<string, readonly string[]> => {
  const carriers = new Map<string, string[]>([...clusters.keys()].map((id) => [id, []]));
  for (const [carrier, cluster] of clusters) for (const id of cluster) carriers.get(id)?.push(carrier);
  return carriers;
};
