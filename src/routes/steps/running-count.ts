import type { RouteAtom } from '../problem/route-problem.ts';
import type { CountingRules } from './counting-rules.ts';
import { advanceCount, COUNT_START, type CounterState, GrowingVocabulary } from './step-counter.ts';

/** How many steps does a sequence count that still grows? What `countSteps` says of all of it, atom by atom. */
export class RunningCount {
  private readonly vocabulary: GrowingVocabulary;
  private readonly rules: CountingRules;
  private state: CounterState = COUNT_START;
  private sum = 0;

  constructor(rules: CountingRules, holdingAids: ReadonlySet<string>) {
    this.rules = rules;
    this.vocabulary = new GrowingVocabulary(holdingAids, rules);
  }

  /** Steps so far. */
  get total(): number {
    return this.sum;
  }

  /** Takes in the next atom. Throws a RangeError past 30 tools. */
  add(atom: RouteAtom): void {
    this.vocabulary.learn(atom);
    const { state, added } = advanceCount(this.state, atom, { rules: this.rules, vocabulary: this.vocabulary });
    this.state = state;
    this.sum += added;
  }
}
