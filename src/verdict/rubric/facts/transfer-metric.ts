import type { MissingFact } from '#quantity/explained';
import type { Device, DevicePart } from '#record/device/device';
import type { MetricValue } from '../metric-value.ts';
import type { MetricSource } from './metric-source.ts';
import { sparesFor } from './spare-metrics.ts';

/** Two ends of a number of actions; `most` is undefined where nothing bounds it. */
interface Work {
  readonly least: number;
  readonly most: number | undefined;
}

/**
 * How many actions take off the old part what its spare does not include, so that it can be moved over? One to lift each thing
 * moved, and those of one way of every fastener that holds it to the rest of the old part; putting it on the new one is not
 * counted. Of several spares the one with the least work counts.
 */
export const transferValue = (part: DevicePart, source: MetricSource): MetricValue => {
  const { spares, settledNone } = sparesFor(part, source);
  if (settledNone) return { none: true, whole: true, missing: [], evidence: [] };
  const { device } = source.groundwork.source;
  const works = spares.map(([, { includes }]) => workOf(part, includes, device));
  const ends = spares.length === 0 ? [workOf(part, undefined, device)] : works;
  const least = Math.min(...ends.map((work) => work.least));
  const bounded = ends.flatMap(({ most }) => (most === undefined ? [] : [most]));
  const most = bounded.length === 0 ? undefined : Math.min(...bounded);
  const missing: MissingFact = {
    address: spares[0] ? `spares/${spares[0][0]}/includes` : 'spares',
    what: `what a spare for ${part.name} includes, and how the rest is held to the old part`,
    remedy: 'order the spare, look into the kit, and record what comes with it',
  };
  return {
    range: { low: String(least), high: most === undefined ? null : String(most) },
    none: spares.length === 0,
    whole: true,
    missing: least === most && spares.length > 0 ? [] : [missing],
    evidence: spares.flatMap(([, { evidence }]) => evidence ?? []),
  };
};

const workOf = (part: DevicePart, includes: readonly string[] | undefined, device: Device): Work => {
  const carried = [...part.cluster].filter((id) => id !== part.id);
  if (includes === undefined) return { least: 0, most: sumOf(carried.map((id) => moveWork(id, part, device))).most };
  const moved = carried.filter((id) => !includes.includes(id));
  // What is carried by a thing that is moved goes along with it.
  const outermost = moved.filter((id) => !moved.includes(device.parts.get(id)?.within ?? ''));
  return sumOf(outermost.map((id) => moveWork(id, part, device)));
};

const sumOf = (works: readonly Work[]): Work => ({
  least: works.reduce((sum, { least }) => sum + least, 0),
  most: works.reduce<number | undefined>(
    (sum, { most }) => (sum === undefined || most === undefined ? undefined : sum + most),
    0,
  ),
});

const moveWork = (id: string, part: DevicePart, device: Device): Work => {
  const own = device.parts.get(id)?.cluster ?? new Set([id]);
  const holding = [...device.fasteners.values()].filter(({ between }) => {
    if (!between) return false;
    const [a, b] = between;
    return own.has(a) !== own.has(b) && part.cluster.has(a) && part.cluster.has(b);
  });
  const releases = holding.map(({ ways }): Work => {
    const counts = Object.values(ways).map(({ actions }) => actions.length);
    return counts.length === 0
      ? { least: 1, most: undefined }
      : { least: Math.min(...counts), most: Math.max(...counts) };
  });
  return sumOf([{ least: 1, most: 1 }, ...releases]);
};
