import type { RouteAction, RouteTool } from '#routes/problem/route-problem';
import { searchBest } from '#schemes/eu-2023-1669/bases/best-search';
import { type Groundwork, readingsOf } from '../index-bases.ts';

/** One layer on the way to a part: what comes off to give access, and how long that takes [s]. */
export interface OpeningLayer {
  readonly id: string;
  readonly openSeconds: number;
}

/** What opening a device up to a part takes, by the best route found. */
export interface Opening {
  /** From the outside in; parts that lie under the same part share its layer. */
  readonly layers: readonly OpeningLayer[];
  /** From the last layer until the part is free [s]. */
  readonly releaseSeconds: number;
  /** Actions on the route of which no time is known; each is taken at 20 s. */
  readonly untimed: readonly string[];
}

/** What an action without a known time is taken to last [s]: default of this tool, no source. */
const UNKNOWN_ACTION_SECONDS = 20;

/**
 * What does opening up to a part take, layer by layer, by the best route found? The mean seconds of the actions, with the
 * taking up of tools as they change. A layer ends with a part that comes off only to give access. Undefined where no route is
 * shown. Cost: one search for the best route, kept by the groundwork.
 */
export const openingOf = ({ source, problems }: Groundwork, part: string): Opening | undefined => {
  const { shown } = searchBest(problems, { source, readings: readingsOf(source.assessment), part });
  if (shown.kind !== 'found') return undefined;
  const layers: OpeningLayer[] = [];
  const clock = new ToolClock(problems.pessimistic.tools);
  let seconds = 0;
  for (const action of shown.actions) {
    seconds += clock.secondsOf(action);
    const removed = action.atoms.flatMap(({ removes }) => removes?.part ?? []).find((id) => id !== part);
    if (removed === undefined) continue;
    layers.push({ id: `under/${removed}`, openSeconds: seconds });
    seconds = 0;
  }
  return { layers, releaseSeconds: seconds, untimed: [...clock.untimed] };
};

/** Seconds of actions one after another, with the tool in hand remembered. */
class ToolClock {
  readonly untimed = new Set<string>();
  private readonly pickup: ReadonlyMap<string, number>;
  private inHand: readonly string[] = [];

  constructor(tools: readonly RouteTool[]) {
    this.pickup = new Map(tools.map(({ id, pickupMilliseconds }) => [id, pickupMilliseconds]));
  }

  secondsOf({ id, atoms }: RouteAction): number {
    let milliseconds = 0;
    for (const { tools, milliseconds: own } of atoms) {
      if (own === undefined) this.untimed.add(id);
      milliseconds += own ?? UNKNOWN_ACTION_SECONDS * 1000;
      for (const tool of tools) if (!this.inHand.includes(tool)) milliseconds += this.pickup.get(tool) ?? 0;
      this.inHand = tools;
    }
    return milliseconds / 1000;
  }
}
