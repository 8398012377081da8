import { PREPARING } from '../device/action-kinds.ts';
import type { DeviceFastener } from '../device/device.ts';
import { sameTools, toolSet } from '../device/tool-set.ts';
import type { Entry, Way } from '../schema/assessment.ts';

/** What was done, as an entry or a step of a procedure says it. */
export type Doing = Partial<Pick<Entry, 'do' | 'way' | 'tools'>>;

/**
 * Which way of a fastener did an entry take? The one it names; else the only one with this action; else the one whose tools
 * fit, whatever order they are named in; of several, the one prepared in the same manner. Undefined where none or still
 * several fit.
 */
export const wayOfEntry = (
  fastener: DeviceFastener,
  entry: Doing,
  preparations?: readonly Doing[],
): string | undefined => {
  if (entry.way !== undefined) return fastener.ways[entry.way] ? entry.way : undefined;
  const ways = Object.entries(fastener.ways).filter(([, way]) => way.actions.some((step) => step.do === entry.do));
  if (ways.length <= 1) return ways[0]?.[0];
  const fitting = ways.filter(
    ([, way]) =>
      entry.tools === undefined ||
      way.actions.some((step) => step.do === entry.do && sameTools(step.tools, entry.tools)),
  );
  if (fitting.length <= 1 || !preparations) return fitting.length === 1 ? fitting[0]?.[0] : undefined;
  const prepared = fitting.filter(([, way]) => preparing(way.actions) === preparing(preparations));
  return prepared.length === 1 ? prepared[0]?.[0] : undefined;
};

const preparing = (steps: readonly Doing[]): string =>
  [...new Set(steps.flatMap((step) => (PREPARING.has(step.do ?? '') ? [step.do] : [])))].sort().join(' ');

/** What way does a logged action stand for, where the record describes none? Its action and tools, after the preparations before it. */
export const loggedWay = (entry: Entry, preparations: readonly Entry[]): { readonly id: string; readonly way: Way } => {
  const actions = [...preparations, entry].map((step) => ({
    do: step.do ?? 'lift',
    tools: toolSet(step.tools),
    ...(step.place === undefined ? {} : { place: step.place }),
  }));
  return { id: `logged-${actions.map((step) => [step.do, ...step.tools].join('.')).join('-')}`, way: { actions } };
};
