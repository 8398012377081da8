import { FASTENER_POINTS, TOOL_POINTS } from '../bands.ts';
import type { FastenerClass, ToolClass } from '../input.ts';
import { FASTENER_ORDER, TOOL_ORDER } from './basis-rules.ts';
import type { ClassEnds } from './class-bounds.ts';
import type { ClassRange } from './class-ranges.ts';

const fastenerPoints = (name: FastenerClass): number => (name === 'below-scale' ? -1000 : FASTENER_POINTS[name]);
const toolPoints = (name: ToolClass): number => (name === 'below-scale' ? -1000 : TOOL_POINTS[name]);

interface Points<C extends string> {
  readonly order: readonly C[];
  readonly of: (name: C) => number;
}

/** A range with the classes outside these points taken off its ends; left as it is where nothing would stay. */
const clipped = <C extends string>(
  range: ClassRange<C>,
  { order, of }: Points<C>,
  points: { readonly least: number; readonly most: number },
): ClassRange<C> => {
  const inside = order
    .slice(order.indexOf(range.worst), order.indexOf(range.best) + 1)
    .filter((name) => of(name) >= points.least && of(name) <= points.most);
  const [worst] = inside;
  const best = inside.at(-1);
  if (worst === undefined || best === undefined) return range;
  return { ...range, worst, best, missing: worst === best ? [] : range.missing };
};

const FASTENERS: Points<FastenerClass> = { order: FASTENER_ORDER, of: fastenerPoints };
const TOOLS: Points<ToolClass> = { order: TOOL_ORDER, of: toolPoints };

/**
 * Which classes are left, where fastener and tool points add up to between two sums? Of all routes with the fewest steps the
 * best found has the highest sum, so it has no lower one than the shown route at its worst and no higher one than any route at
 * its best. Clipped until nothing changes.
 */
export const withinSums = (ends: ClassEnds, sums: { readonly lowest: number; readonly highest: number }): ClassEnds => {
  const { fastener, tool } = ends;
  const nextFastener = clipped(fastener, FASTENERS, {
    least: sums.lowest - toolPoints(tool.best),
    most: sums.highest - toolPoints(tool.worst),
  });
  const nextTool = clipped(tool, TOOLS, {
    least: sums.lowest - fastenerPoints(nextFastener.best),
    most: sums.highest - fastenerPoints(nextFastener.worst),
  });
  const same =
    nextFastener.worst === fastener.worst &&
    nextFastener.best === fastener.best &&
    nextTool.worst === tool.worst &&
    nextTool.best === tool.best;
  const next = { fastener: nextFastener, tool: nextTool };
  return same ? next : withinSums(next, sums);
};
