import type { RouteSearchOptions } from './route-search.ts';

/** An early action that adds no step and no pick-up in some state of the hands. */
export interface Closing {
  /** Local number. */
  readonly action: number;
  /** Facts of which it must newly give one. */
  readonly served: Int32Array;
  /** Does a local action do the same, at the same price, after the closing as before it? Worked out when it is asked. */
  readonly isSame: (action: number) => boolean;
}

/**
 * Which actions cost nothing in a state of the hands, facts aside? Worked out once a state, so that a search over many sets of
 * facts looks at these few only.
 */
export class FreeWork {
  private readonly o: Pick<RouteSearchOptions, 'target' | 'hands' | 'early' | 'order'>;
  private readonly ready: (Int32Array | undefined)[] = [];
  private readonly closing: (readonly Closing[] | undefined)[] = [];

  constructor(options: Pick<RouteSearchOptions, 'target' | 'hands' | 'early' | 'order'>) {
    this.o = options;
  }

  /** Local actions that add no step and leave the hands as they are; for best found early ones without a pick-up only. */
  atOnce(state: number): Int32Array {
    const old = this.ready[state];
    if (old) return old;
    const { target, early, order } = this.o;
    const list = Int32Array.from(
      [...target.actions.keys()].filter((action) => {
        const after = this.after(state, action);
        return after === state && this.isFree(state, action) && (order === 'steps' || early[action] !== undefined);
      }),
    );
    this.ready[state] = list;
    return list;
  }

  /** The early actions that cost neither step nor pick-up. */
  closings(state: number): readonly Closing[] {
    const old = this.closing[state];
    if (old) return old;
    const list = this.o.early.flatMap((served, action) => {
      if (!served || !this.isFree(state, action)) return [];
      const after = this.after(state, action);
      return [{ action, served, isSame: this.sameAcross(state, after) }];
    });
    this.closing[state] = list;
    return list;
  }

  /** Most closings are never open while most actions are: few pairs of the two are ever asked for. */
  private sameAcross(state: number, closed: number): Closing['isSame'] {
    const known = new Int8Array(this.o.target.actions.length).fill(-1);
    return (action) => {
      if (known[action] === -1) known[action] = this.isSame(action, state, closed) ? 1 : 0;
      return known[action] === 1;
    };
  }

  /** Works the action out in this state; the state after it. */
  private after(state: number, action: number): number {
    const { hands, target } = this.o;
    const graph = target.actions[action] ?? 0;
    if ((hands.after[state]?.[graph] ?? -1) < 0) hands.fill(state, graph);
    return hands.after[state]?.[graph] ?? state;
  }

  private isFree(state: number, action: number): boolean {
    const { hands, order, target } = this.o;
    const graph = target.actions[action] ?? 0;
    this.after(state, action);
    if (hands.steps[state]?.[graph] !== 0) return false;
    return order === 'steps' || hands.milliseconds[state]?.[graph] === hands.work[graph];
  }

  private isSame(action: number, state: number, closed: number): boolean {
    const { hands, target } = this.o;
    const graph = target.actions[action] ?? 0;
    return (
      this.after(state, action) === this.after(closed, action) &&
      hands.steps[state]?.[graph] === hands.steps[closed]?.[graph] &&
      hands.milliseconds[state]?.[graph] === hands.milliseconds[closed]?.[graph]
    );
  }
}
