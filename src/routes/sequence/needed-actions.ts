import type { RouteSource } from '../problem/from-record.ts';
import type { Fact, Reach } from '../problem/route-problem.ts';
import { undescribedHolders } from '../problem/undescribed-holders.ts';
import { workCondition } from '../problem/work-condition.ts';
import { type ObservedRun, subjectsOf } from './observed-run.ts';
import { RunHistory } from './run-history.ts';

/** How many sets of needed actions are looked at before the rest of the alternatives are taken as they come. */
const MAX_CHOICES = 256;

/** Sets of actions of a run that a part may have needed, by index; none contains another. */
export interface Choices {
  readonly sets: readonly ReadonlySet<number>[];
  /**
   * True where alternatives were left unexplored: pessimistically the least is then not proved (each set still frees the
   * part); optimistically the alternatives left were taken as asking for nothing, so that the count is a lower bound.
   */
  readonly capped: boolean;
}

/** What an action rests on: actions that it needs in any case, and clauses of alternatives, each a set of actions. */
interface Basis {
  readonly all: readonly number[];
  readonly clauses: readonly (readonly (readonly number[])[])[];
}

interface Branch {
  readonly kept: Set<number>;
  readonly open: Basis['clauses'][number][];
}

/**
 * Which actions of a run did freeing a part need? Backwards over what each release or removal rested on: its access, what
 * must come first for other reasons, the fasteners that held it, and the heat, solvent, part work and cleaning before it.
 * Where several sets of things off would have done and held at that moment, each is followed.
 */
export class NeededActions {
  private readonly source: RouteSource;
  private readonly run: ObservedRun;
  private readonly reach: Reach;
  private readonly history: RunHistory;
  private readonly bases = new Map<number, Basis>();

  constructor(source: RouteSource, run: ObservedRun, reach: Reach) {
    this.source = source;
    this.run = run;
    this.reach = reach;
    this.history = new RunHistory(source.device, run.actions.slice(0, run.last + 1));
  }

  /** All sets of needed actions, least first; explored up to {@link MAX_CHOICES}. */
  choices(): Choices {
    const stack: Branch[] = [this.close({ kept: new Set(), open: [] }, [this.run.last])];
    const done: ReadonlySet<number>[] = [];
    const seen = new Set<string>();
    let capped = false;
    while (stack.length > 0) {
      const branch = stack.pop();
      const key = branch && [...branch.kept].sort((a, b) => a - b).join(' ');
      if (!branch || key === undefined || seen.has(key)) continue;
      seen.add(key);
      const clause = openClause(branch);
      if (!clause) {
        done.push(branch.kept);
        continue;
      }
      const full = seen.size >= MAX_CHOICES;
      capped ||= full && (clause.length > 1 || this.reach === 'optimistic');
      if (full && this.reach === 'optimistic') done.push(branch.kept);
      else
        for (const set of clause.slice(0, full ? 1 : clause.length).toReversed()) stack.push(this.close(branch, set));
    }
    return { sets: leastSets(done), capped };
  }

  /** A branch with these actions and all that they rest on in any case. */
  private close({ kept, open }: Branch, added: readonly number[]): Branch {
    const next: Branch = { kept: new Set(kept), open: [...open] };
    const todo = [...added];
    for (let index = todo.pop(); index !== undefined; index = todo.pop()) {
      if (next.kept.has(index)) continue;
      next.kept.add(index);
      const basis = this.basisOf(index);
      todo.push(...basis.all);
      next.open.push(...basis.clauses);
    }
    return next;
  }

  private basisOf(index: number): Basis {
    const known = this.bases.get(index);
    if (known) return known;
    const action = this.run.actions[index];
    const all: number[] = [];
    const clauses: Basis['clauses'][number][] = [];
    for (const subject of action ? subjectsOf(action) : []) {
      const { needs, anyOf } = this.conditions(subject, index);
      all.push(...this.givers(needs, index), ...this.companions(subject, index));
      for (const clause of anyOf) {
        const held = clause.filter((alternative) => alternative.every((fact) => this.held(fact, index)));
        if (held.length > 0) clauses.push(distinct(held.map((alternative) => this.givers(alternative, index))));
        else if (this.reach === 'pessimistic') all.push(...this.givers(this.history.heldBefore(index), index));
      }
    }
    const basis: Basis = { all: [...new Set(all)], clauses };
    this.bases.set(index, basis);
    return basis;
  }

  /**
   * Where nothing shows a part or fastener reachable though it came off, pessimistically all that was off then may have been
   * needed; and fasteners that nobody described may have held a part, whatever shows that it could be reached.
   */
  private conditions(
    subject: string,
    index: number,
  ): { needs: readonly Fact[]; anyOf: readonly (readonly (readonly Fact[])[])[] } {
    const condition = workCondition(subject, this.source, this.reach);
    const holding = this.holders(subject).map((id): Fact => `released/${id}`);
    if (condition.reachable) return { needs: [...condition.needs, ...holding], anyOf: condition.anyOf };
    const all = this.reach === 'pessimistic' ? this.history.heldBefore(index) : [];
    return { needs: [...all, ...holding], anyOf: [] };
  }

  private holders(subject: string): readonly string[] {
    const part = this.source.device.parts.get(subject);
    if (!part) return [];
    const open = this.reach === 'pessimistic' ? undescribedHolders(subject, 'free', this.source) : [];
    return [...part.crossing, ...open];
  }

  /** Did a fact hold when an action was done, or through that action itself? */
  private held(fact: Fact, index: number): boolean {
    return this.history.giver(fact, index + 1) !== undefined;
  }

  /** Which earlier actions brought these facts about? What never held asks for nothing. */
  private givers(facts: readonly Fact[], index: number): readonly number[] {
    const found = facts.map((fact) => this.history.giver(fact, index)).filter((giver) => giver !== undefined);
    return [...new Set(found)].sort((a, b) => a - b);
  }

  /** What was done on a fastener or part besides: heat, solvent, part work and cleaning before it came, cleaning after. */
  private companions(subject: string, index: number): readonly number[] {
    const before = this.run.groundwork(index, subject);
    const led = before ? [...before.preparations, ...before.partial, ...before.cleaning] : [];
    return [...led.map((action) => this.run.actions.indexOf(action)), ...this.cleanedAfter(subject, index)];
  }

  private cleanedAfter(subject: string, index: number): readonly number[] {
    const found: number[] = [];
    for (let at = index + 1; at < this.run.last; at++) if (isCleaningOf(subject, this.run, at)) found.push(at);
    return this.source.device.fasteners.has(subject) ? found : [];
  }
}

/** Is the action of this index a cleaning of this fastener's place? */
const isCleaningOf = (fastener: string, run: ObservedRun, index: number): boolean => {
  const record = run.actions[index]?.record;
  return record?.do === 'clean' && record.target === fastener && record.outcome !== 'failed';
};

/** The clause with fewest alternatives that the kept actions do not fulfil yet; what they fulfil is dropped. */
const openClause = ({ kept, open }: Branch): Basis['clauses'][number] | undefined => {
  let fewest: Basis['clauses'][number] | undefined;
  for (const clause of open) {
    if (clause.some((set) => set.every((index) => kept.has(index)))) continue;
    if (!fewest || clause.length < fewest.length) fewest = clause;
  }
  return fewest;
};

/** Alternatives each once, smallest and earliest first, so that no choice depends on names. */
const distinct = (sets: readonly (readonly number[])[]): readonly (readonly number[])[] =>
  [...new Map(sets.map((set) => [set.join(' '), set])).values()].sort(bySizeThenTime);

const bySizeThenTime = (a: readonly number[], b: readonly number[]): number => {
  if (a.length !== b.length) return a.length - b.length;
  const at = a.findIndex((index, place) => index !== b[place]);
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0);
};

/** The sets that contain no other, smallest and earliest first. Leaving actions out never raises a count, so the others cannot count less. */
const leastSets = (sets: readonly ReadonlySet<number>[]): readonly ReadonlySet<number>[] => {
  const sorted = sets.map((set) => [...set].sort((a, b) => a - b)).sort(bySizeThenTime);
  const least: ReadonlySet<number>[] = [];
  for (const set of sorted) {
    const own = new Set(set);
    if (!least.some((other) => [...other].every((index) => own.has(index)))) least.push(own);
  }
  return least;
};
