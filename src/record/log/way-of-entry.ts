import { type Device, type DeviceFastener, PREPARING } from '../device/device.ts';
import type { Entry, Way } from '../schema/assessment.ts';

/** Which way of a fastener did an entry take? The one it names; else the only one; else the one whose actions and tools fit; undefined where none does. */
export const wayOfEntry = (fastener: DeviceFastener, entry: Entry): string | undefined => {
  if (entry.way !== undefined) return fastener.ways[entry.way] ? entry.way : undefined;
  const ways = Object.entries(fastener.ways).filter(([, way]) => way.actions.some((step) => step.do === entry.do));
  if (ways.length <= 1) return ways[0]?.[0];
  const exact = ways.filter(([, way]) =>
    way.actions.some((step) => step.do === entry.do && sameTools(step.tools ?? [], entry.tools)),
  );
  return exact[0]?.[0];
};

const sameTools = (a: readonly string[], b: readonly string[] | undefined): boolean =>
  b !== undefined && [...a].sort().join('\n') === [...b].sort().join('\n');

/** What way does a logged action stand for, where the record describes none? Its action and tools, after the preparations before it. */
export const loggedWay = (entry: Entry, preparations: readonly Entry[]): { readonly id: string; readonly way: Way } => {
  const actions = [...preparations, entry].map((step) => ({
    do: step.do ?? 'lift',
    tools: step.tools ?? [],
    ...(step.place === undefined ? {} : { place: step.place }),
  }));
  return {
    id: `logged-${actions.map((step) => [step.do, ...step.tools].join('.')).join('-')}`.slice(0, 80),
    way: { actions },
  };
};

/** Is this entry a preparation (heat, solvent) of work on this fastener, or on one of the parts it joins? */
export const preparesFor = (entry: Entry, fastener: DeviceFastener, device: Device): boolean => {
  if (!PREPARING.has(entry.do ?? '') || entry.outcome === 'failed' || entry.target === undefined) return false;
  if (entry.target === fastener.id) return true;
  const joined: readonly string[] = fastener.between ?? [fastener.id.replace(/\.joint$/, '')];
  return device.parts.has(entry.target) && joined.includes(entry.target);
};
