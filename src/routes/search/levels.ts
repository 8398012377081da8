import type { RouteAction } from '../problem/route-problem.ts';
import type { CountingRules } from '../steps/counting-rules.ts';
import { actionToolPoints, NONE_USED, type RoutePoints } from '../steps/stretch.ts';

/**
 * Which fastener and tool points occur, from best to worst, and how good is each pair? A level is the worst of both so far,
 * written as one number: fastener rank × tool ranks + tool rank; 0 is best in both.
 */
export interface Levels {
  readonly fasteners: readonly number[];
  readonly tools: readonly number[];
  /** By action: its own level. */
  readonly ofAction: Int32Array;
  /** By level: rank of fastener + tool points; 0 is the highest sum. */
  readonly rank: Int32Array;
  readonly ranks: number;
}

const descending = (values: Iterable<number>): number[] => [...new Set(values)].sort((a, b) => b - a);

/** Which levels do these actions have under these points? */
export const levelsOf = (
  actions: readonly RouteAction[],
  points: RoutePoints,
  hands: { readonly rules: CountingRules; readonly holdingAids: ReadonlySet<string> },
): Levels => {
  const ofFastener = actions.map((action) => Math.min(NONE_USED, points.fastener(action)));
  const ofTool = actions.map((action) => actionToolPoints(action, points, hands));
  const fasteners = descending([NONE_USED, ...ofFastener]);
  const tools = descending([NONE_USED, ...ofTool]);
  const sums = descending(fasteners.flatMap((fastener) => tools.map((tool) => fastener + tool)));
  const rank = Int32Array.from({ length: fasteners.length * tools.length }, (_, level) =>
    sums.indexOf((fasteners[Math.floor(level / tools.length)] ?? 0) + (tools[level % tools.length] ?? 0)),
  );
  const ofAction = Int32Array.from(
    actions,
    (_, index) => fasteners.indexOf(ofFastener[index] ?? 0) * tools.length + tools.indexOf(ofTool[index] ?? 0),
  );
  return { fasteners, tools, ofAction, rank, ranks: sums.length };
};

/** Which points does a level stand for? */
export const pointsOfLevel = (levels: Levels, level: number): { readonly fastener: number; readonly tool: number } => ({
  fastener: levels.fasteners[Math.floor(level / levels.tools.length)] ?? NONE_USED,
  tool: levels.tools[level % levels.tools.length] ?? NONE_USED,
});

/** What is the worst of both, fastener and tool apart? */
export const worseLevel = (levels: Levels, one: number, other: number): number => {
  const size = levels.tools.length;
  const fastener = Math.max(Math.floor(one / size), Math.floor(other / size));
  return fastener * size + Math.max(one % size, other % size);
};
