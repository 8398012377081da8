import type { RouteAction, RouteTool } from '../problem/route-problem.ts';
import type { CountingRules } from '../steps/counting-rules.ts';
import { advanceCount, COUNT_START, type CounterState, type CounterVocabulary } from '../steps/step-counter.ts';

/** What the hands and the count look like between two actions: the counter's state, and the tools held (bits). */
interface Hands {
  readonly counter: CounterState;
  readonly held: number;
}

/** What does a table cover: which actions, under which rules, and is it to keep time? */
export interface HandTableOptions {
  readonly actions: readonly RouteAction[];
  readonly tools: readonly RouteTool[];
  readonly rules: CountingRules;
  readonly vocabulary: CounterVocabulary;
  /** Without time, what is held is not told apart, and fewer states remain. */
  readonly keepsTime: boolean;
}

/**
 * How does each action change count, hands and clock, from every state met so far? States are numbered as they are met, from
 * 0, the start; every transition is worked out once, by the step counter itself, so that search and count cannot drift apart.
 */
export class HandTable {
  readonly start = 0;
  /** By state, then action: the state after; -1 where not worked out yet. */
  readonly after: Int32Array[] = [];
  readonly steps: Int32Array[] = [];
  readonly milliseconds: Int32Array[] = [];
  /** By state: what a closing action may save at most by using the open step. */
  readonly saved: number[] = [];
  /** By state: tools held, as bits. */
  readonly held: number[] = [];
  /** By action: steps it adds at least, up to the last atom that ends a step, wherever it stands after other closing actions. */
  readonly closing: Int32Array;
  /** By action: its atoms' milliseconds without pick-ups. */
  readonly work: Int32Array;
  /** By action: all tools it takes, as bits. */
  readonly toolBits: Int32Array;
  readonly pickups: readonly number[];
  private readonly states: Hands[] = [];
  private readonly ids = new Map<string, number>();
  private readonly bitOf = new Map<string, number>();
  private readonly options: HandTableOptions;

  constructor(options: HandTableOptions) {
    this.options = options;
    const { actions, tools } = options;
    const used = [...new Set(actions.flatMap((action) => action.atoms.flatMap((atom) => atom.tools)))];
    if (options.keepsTime && used.length > 30) throw new RangeError('more than 30 tools in one search');
    const cost = new Map(tools.map((tool) => [tool.id, tool.pickupMilliseconds]));
    this.pickups = used.map((tool) => cost.get(tool) ?? 0);
    for (const [index, tool] of used.entries()) this.bitOf.set(tool, 1 << index);
    this.work = Int32Array.from(actions, ({ atoms }) => atoms.reduce((sum, atom) => sum + (atom.milliseconds ?? 0), 0));
    this.toolBits = Int32Array.from(actions, ({ atoms }) =>
      atoms.reduce((mask, atom) => mask | this.bits(atom.tools), 0),
    );
    const generous = this.generousState();
    this.closing = Int32Array.from(actions, (action) => this.closingCost(generous, action));
    this.intern({ counter: COUNT_START, held: 0 });
  }

  /** Works out what an action does in a state; afterwards `after`, `steps` and `milliseconds` hold it. */
  fill(state: number, action: number): void {
    const { rules, vocabulary, actions, keepsTime } = this.options;
    const from = this.states[state];
    const done = actions[action];
    const [after, steps, milliseconds] = [this.after[state], this.steps[state], this.milliseconds[state]];
    if (!from || !done || !after || !steps || !milliseconds) return;
    let { counter, held } = from;
    let added = 0;
    let time = 0;
    for (const atom of done.atoms) {
      const next = advanceCount(counter, atom, { rules, vocabulary });
      counter = next.state;
      added += next.added;
      if (!keepsTime) continue;
      time += atom.milliseconds ?? 0;
      if (atom.tools.length === 0) continue;
      const tools = this.bits(atom.tools);
      time += this.pickupCost(tools & ~held);
      held = tools;
    }
    steps[action] = added;
    milliseconds[action] = time;
    after[action] = this.intern({ counter, held });
  }

  /** Does nothing but the open step matter to the count? Not where the first pick-up, or the places heated so far, do. */
  get forgets(): boolean {
    return !this.options.rules.firstPickUpIsChange && !this.options.rules.reheatingOncePerPlace;
  }

  /** Is no step open in this state? */
  isClosed(state: number): boolean {
    return this.states[state]?.counter.open === 0;
  }

  /** What does taking up these tools cost [ms]? */
  pickupCost(tools: number): number {
    let cost = 0;
    for (let left = tools; left !== 0; left &= left - 1) cost += this.pickups[31 - Math.clz32(left & -left)] ?? 0;
    return cost;
  }

  private bits(tools: readonly string[]): number {
    return tools.reduce((mask, tool) => mask | (this.bitOf.get(tool) ?? 0), 0);
  }

  private intern(hands: Hands): number {
    const { running, open, everHeld, heated } = hands.counter;
    const key = `${running},${open},${everHeld},${heated},${hands.held}`;
    const old = this.ids.get(key);
    if (old !== undefined) return old;
    const id = this.states.push(hands) - 1;
    const size = this.options.actions.length;
    this.ids.set(key, id);
    this.after.push(new Int32Array(size).fill(-1));
    this.steps.push(new Int32Array(size));
    this.milliseconds.push(new Int32Array(size));
    this.held.push(hands.held);
    this.saved.push(this.mostSaved(hands.counter));
    return id;
  }

  private mostSaved(counter: CounterState): number {
    if (counter.open === 0) return 0;
    let most = 0;
    for (const [index, action] of this.options.actions.entries())
      most = Math.max(most, (this.closing[index] ?? 0) - this.closingCost(counter, action));
    return most;
  }

  /** The state from which everything counts least, short of an open step: every place heated, a tool held before. */
  private generousState(): CounterState {
    const { actions, rules, vocabulary } = this.options;
    let heated = 0;
    for (const { atoms } of actions) for (const atom of atoms) heated |= vocabulary.heatBits(atom)?.place ?? 0;
    return { running: 0, open: 0, everHeld: rules.firstPickUpIsChange ? 1 : 0, heated };
  }

  /** Steps from a state up to the last atom of the action that ends a step; 0 where none does. */
  private closingCost(from: CounterState, action: RouteAction): number {
    let counter = from;
    let total = 0;
    let closed = 0;
    for (const atom of action.atoms) {
      const next = advanceCount(counter, atom, this.options);
      counter = next.state;
      total += next.added;
      if (next.ended !== 'open') closed = total;
    }
    return closed;
  }
}
