import type { HandTable } from '../search/hand-table.ts';
import type { TargetProblem } from '../search/target-problem.ts';
import { OrderedQueue } from './ordered-queue.ts';

/** What a path has cost so far, or must still cost: steps, milliseconds, log of the chance of no damage. */
export type Costs = readonly [steps: number, milliseconds: number, damage: number];

/** One way of reaching a state. */
export interface Label {
  readonly state: Int32Array;
  readonly hands: number;
  readonly costs: Costs;
  readonly least: Costs;
  readonly parent: Label | undefined;
  /** Local action. */
  readonly action: number;
  dominated: boolean;
}

/** What does the search for the front run on? */
export interface LabelSearchOptions {
  readonly target: TargetProblem;
  readonly hands: HandTable;
  /** By graph action. */
  readonly damage: readonly number[];
  /** Costs of routes known beforehand. */
  readonly known: readonly Costs[];
  /** What must still be paid from a state, each cost for itself. */
  readonly remaining: (state: Int32Array, hands: number) => Costs;
  readonly mostLabels: number;
  /** The objectives looked at, in the order in which labels are taken up; the others are ignored. */
  readonly objectives: readonly (0 | 1 | 2)[];
  /** Stop at the first route: the best when objectives count one after the other. */
  readonly firstOnly: boolean;
}

const holds = (state: Int32Array, mask: Int32Array): boolean =>
  mask.every((word, at) => ((state[at] ?? 0) & word) === word);
const adds = (state: Int32Array, gives: Int32Array, wanted: Int32Array): boolean =>
  gives.some((word, at) => (word & (wanted[at] ?? 0) & ~(state[at] ?? 0)) !== 0);

/**
 * Which routes are on the front: none other is as good in every cost and better in one? Label setting with lower bounds
 * (Mandow & Pérez de la Cruz, "Multiobjective A* search with consistent heuristics", J. ACM 57(5), 2010), over facts and hands.
 */
export class LabelSearch {
  readonly found: Label[] = [];
  labels = 0;
  private readonly o: LabelSearchOptions;
  private readonly byState = new Map<string, Label[]>();
  private readonly queue = new OrderedQueue<Label>((a, b) => this.compare(a.least, b.least) < 0);

  constructor(options: LabelSearchOptions) {
    this.o = options;
  }

  /** Runs to the end; false where the limit on labels was met first, so that the front may lack routes. */
  run(): boolean {
    const { target, hands } = this.o;
    this.enter({ state: new Int32Array(target.words), hands: hands.start, costs: [0, 0, 0] }, undefined, -1);
    for (let label = this.queue.pop(); label; label = this.queue.pop()) {
      if (label.dominated || this.isBeaten(label.least)) continue;
      if (holds(label.state, target.goal)) {
        this.found.push(label);
        if (this.o.firstOnly) return true;
        continue;
      }
      if (this.labels >= this.o.mostLabels) return false;
      for (let action = 0; action < target.actions.length; action++) this.extend(label, action);
    }
    return true;
  }

  /** The local actions that led to a label, in order. */
  path(label: Label): number[] {
    const actions: number[] = [];
    for (let at: Label | undefined = label; at?.parent; at = at.parent) actions.push(at.action);
    return actions.reverse();
  }

  private extend(label: Label, action: number): void {
    const { target, hands, damage } = this.o;
    const needs = target.needs[action];
    const gives = target.gives[action];
    if (!needs || !gives || !holds(label.state, needs) || !adds(label.state, gives, target.wanted)) return;
    const clauses = target.clauses[action] ?? [];
    if (!clauses.every((clause) => clause.some((one) => holds(label.state, one)))) return;
    const graph = target.actions[action] ?? 0;
    if ((hands.after[label.hands]?.[graph] ?? -1) < 0) hands.fill(label.hands, graph);
    const state = label.state.map((word, at) => word | (gives[at] ?? 0));
    const costs: Costs = [
      label.costs[0] + (hands.steps[label.hands]?.[graph] ?? 0),
      label.costs[1] + (hands.milliseconds[label.hands]?.[graph] ?? 0),
      label.costs[2] + (damage[graph] ?? 0),
    ];
    this.enter({ state, hands: hands.after[label.hands]?.[graph] ?? 0, costs }, label, action);
  }

  private enter(at: Pick<Label, 'state' | 'hands' | 'costs'>, parent: Label | undefined, action: number): void {
    const remaining = this.o.remaining(at.state, at.hands);
    const costs = at.costs.map((cost, index) => (this.looksAt(index) ? cost : 0)) as unknown as Costs;
    const least = costs.map(
      (cost, index) => cost + (this.looksAt(index) ? (remaining[index] ?? 0) : 0),
    ) as unknown as Costs;
    if (this.isBeaten(least)) return;
    const key = `${at.hands}:${at.state.join()}`;
    const here = this.byState.get(key) ?? [];
    if (here.some((other) => this.covers(other.costs, costs))) return;
    const label: Label = { ...at, costs, least, parent, action, dominated: false };
    for (const other of here) if (this.covers(costs, other.costs)) other.dominated = true;
    this.byState.set(key, [...here.filter((other) => !other.dominated), label]);
    this.labels++;
    this.queue.push(label);
  }

  private looksAt(objective: number): boolean {
    return this.o.objectives.some((one) => one === objective);
  }

  /** Is a finished route, or one known beforehand, already as good in every cost? */
  private isBeaten(costs: Costs): boolean {
    return (
      this.found.some((label) => this.covers(label.costs, costs)) || this.o.known.some((one) => this.covers(one, costs))
    );
  }

  private covers(one: Costs, other: Costs): boolean {
    return this.o.objectives.every((index) => one[index] <= other[index]);
  }

  private compare(a: Costs, b: Costs): number {
    for (const index of this.o.objectives) if (a[index] !== b[index]) return a[index] - b[index];
    return 0;
  }
}
