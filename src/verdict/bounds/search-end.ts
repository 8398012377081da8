import { drained } from '#quantity/drained';
import type { Answered, OpenVariable } from '../open/open-variable.ts';
import { openVariables } from '../open/open-variables.ts';
import { guessesInStages } from './guesses.ts';
import { factsOf, openQuestions } from './open-questions.ts';
import { type OpenState, withAnswer } from './open-state.ts';
import { boundOf, type FigureEnd, isBeyond, type Objective, scaledFigure } from './scaled-figure.ts';

/** A value that some answers lead to. */
export interface Witness {
  readonly value: number;
  readonly answers: readonly Answered[];
  /** True where some answers to all the rest leave it there (see `isFinal`). */
  readonly isFinal: boolean;
}

/** One end of what a figure may still be. */
export interface FoundEnd {
  /** No completion of the record goes beyond it. Scaled integer: R in ten-thousandths, scores in hundredths. */
  readonly bound: number;
  /** The most extreme value found, and the answers that lead to it; undefined where none was found. */
  readonly witness?: Witness;
  /** True where the bound is the value of a witness that is final. */
  readonly exact: boolean;
  /** Records worked out on the way. */
  readonly looked: number;
}

/** What to look for, from where, and how long. */
export interface EndSearch extends FigureEnd {
  /** How much may be worked out, in the measure of `COST`. */
  readonly limit: number;
}

/** One record on the way: what may still be asked of it before the next question, and the end it cannot go beyond. */
interface Node {
  readonly state: OpenState;
  readonly bound: number;
  /** Answers of a question not looked at yet; the state is the one before the question. */
  readonly rest?: { readonly variable: OpenVariable; readonly from: number };
}

/** What working out one more record costs, by what the answer touches: about what it takes on a phone of fifty parts [ms]. */
const COST: Readonly<Record<OpenVariable['touches'], number>> = { product: 2, judging: 10, routes: 300 };

/** On a basis that seeks no route an answer about routes is judged like any other. */
const costOf = ({ inputs }: OpenState, { touches }: OpenVariable): number =>
  COST[touches === 'routes' && inputs.basis !== 'best' ? 'judging' : touches];

/**
 * How low, or how high, may a figure still be, and by which answers? After a guess (see `guessesInStages`), best first over records with more and more answers in
 * them: every record's own width bounds all that may follow from it, so that the first record without open facts that reaches
 * the best bound left is the end itself. What a list of answers cannot cover (see `OpenVariable`), or a limit that is met,
 * leaves a bound beyond the best witness. Undefined where no number is possible at that end.
 */
export const searchEnd = (root: OpenState, search: EndSearch): FoundEnd | undefined =>
  drained(searchEndInStages(root, search));

/** The same in pieces, one question put to one record at a time, for a screen that must not wait. */
export function* searchEndInStages(
  root: OpenState,
  search: EndSearch,
): Generator<undefined, FoundEnd | undefined, void> {
  const start = boundOf(root, search);
  return start === undefined ? undefined : yield* new EndSearcher(search).run({ state: root, bound: start });
}

class EndSearcher {
  private readonly search: EndSearch;
  private readonly open: Node[] = [];
  /** The most extreme of the final values. */
  private witness: Witness | undefined;
  /** The most extreme of the values that stand while facts are open: it tells a gap where no final one does, and proves nothing. */
  private passing: Witness | undefined;
  /** The most extreme bound of what no further question can split. */
  private stuck: number | undefined;
  private looked = 0;
  private spent = 0;

  constructor(search: EndSearch) {
    this.search = search;
  }

  *run(root: Node): Generator<undefined, FoundEnd, void> {
    for (const guessed of yield* guessesInStages(root.state, this.search.end)) this.see(guessed);
    this.arrive(root);
    while (this.open.length > 0 && this.spent < this.search.limit) {
      const node = this.open.pop() as Node;
      if (this.witness && !this.beyond(node.bound, this.witness.value)) {
        this.open.push(node);
        break;
      }
      this.split(node);
      yield;
    }
    const left = this.open.at(-1);
    if (!this.witness && !this.passing && left) yield* this.dive(left.state);
    return this.found(root.bound);
  }

  /** Where the limit was met before any figure was seen: one answer to each fact, the furthest, so that a gap can be told. */
  private *dive(from: OpenState): Generator<undefined, void, void> {
    const { objective } = this.search;
    for (let state: OpenState | undefined = from; state && !hasUncoveredFact(state, objective); yield) {
      this.see(state);
      if (this.witness || this.passing) return;
      const question = nextQuestion(state, objective);
      if (question?.kind !== 'fact') return;
      state = this.furthest(state, question);
    }
  }

  /** The record with the answer that leaves the end furthest out; the first that keeps it where it is will do. */
  private furthest(state: OpenState, variable: OpenVariable): OpenState | undefined {
    const bound = boundOf(state, this.search);
    let best: Node | undefined;
    for (const answer of variable.answers) {
      this.looked += 1;
      const next = withAnswer(state, { variable, answer });
      const nextBound = next && boundOf(next, this.search);
      if (!next || nextBound === undefined || bound === undefined) continue;
      if (!this.beyond(bound, nextBound)) return next;
      if (!best || this.beyond(nextBound, best.bound)) best = { state: next, bound: nextBound };
    }
    return best?.state;
  }

  private found(start: number): FoundEnd {
    const left = [this.open.at(-1)?.bound, this.stuck, this.witness?.value].filter((value) => value !== undefined);
    const bound = left.reduce((far, value) => (this.beyond(value, far) ? value : far), left[0] ?? start);
    const witness = this.witness ?? this.passing;
    return {
      bound,
      ...(witness ? { witness } : {}),
      exact: this.witness !== undefined && !this.beyond(bound, this.witness.value),
      looked: this.looked,
    };
  }

  /** Takes in a record: its own figure may be a witness, and it may hold a further question. */
  private arrive(node: Node): void {
    const { state, bound } = node;
    const value = this.see(state);
    if (value === undefined || this.beyond(bound, value)) this.push(node);
  }

  /** The final figure of a record, if it has one: a witness where it lies further out than any before. */
  private see(state: OpenState): number | undefined {
    const { objective } = this.search;
    const value = scaledFigure(state.index.figures, objective);
    if (value === undefined) return undefined;
    const seen = { value, answers: state.answers, isFinal: isFinal(state, objective) };
    const before = seen.isFinal ? this.witness : this.passing;
    if (!before || this.beyond(value, before.value)) this[seen.isFinal ? 'witness' : 'passing'] = seen;
    return seen.isFinal ? value : undefined;
  }

  private split({ state, bound, rest }: Node): void {
    const variable = rest?.variable ?? nextQuestion(state, this.search.objective);
    if (!variable || variable.covers === false)
      this.stuck = this.stuck === undefined || this.beyond(bound, this.stuck) ? bound : this.stuck;
    if (!variable) return;
    for (let index = rest?.from ?? 0; index < variable.answers.length; index++) {
      const answer = variable.answers[index];
      if (!answer) continue;
      this.looked += 1;
      this.spent += costOf(state, variable);
      const next = withAnswer(state, { variable, answer });
      const nextBound = next && boundOf(next, this.search);
      if (!next || nextBound === undefined) continue;
      // An answer that keeps the end where it was: the others cannot go beyond it, and wait.
      const isAsFar = !this.beyond(bound, nextBound);
      if (isAsFar && index + 1 < variable.answers.length)
        this.push({ state, bound, rest: { variable, from: index + 1 } });
      this.arrive({ state: next, bound: nextBound });
      if (isAsFar) return;
    }
  }

  /** Keeps the list in order: the most extreme bound last, and among equals the one that came last. */
  private push(node: Node): void {
    let at = this.open.length;
    while (at > 0 && this.beyond((this.open[at - 1] as Node).bound, node.bound)) at -= 1;
    this.open.splice(at, 0, node);
  }

  /** Does one value lie further towards the end looked for than another? */
  private beyond(value: number, than: number): boolean {
    return isBeyond(value, than, this.search.end);
  }
}

/**
 * Do some answers to everything leave the figure where the record has it? So where its width is closed, and where no fact it rests on
 * is open: to every trial left the answer may be that it did not come, which shows nothing new. While a fact is open, it need not be
 * so: a route goes round a fastener whose class is open, and every class it may have can make another route the one to judge.
 */
const isFinal = (state: OpenState, objective: Objective): boolean => {
  const ends = (['low', 'high'] as const).map((end) => boundOf(state, { objective, end }));
  return (ends[0] !== undefined && ends[0] === ends[1]) || !hasOpenFact(state, objective);
};

const hasOpenFact = (state: OpenState, objective: Objective): boolean => {
  const asked = new Set(state.answers.map(({ variable }) => variable.id));
  return openVariables(state.assessment, factsOf(state, objective), state.kitFacts).some(({ id }) => !asked.has(id));
};

/** Does the figure as it stands wait for a fact that no list of answers covers? Then no answers make it a number. */
const hasUncoveredFact = ({ index, assessment, kitFacts }: OpenState, objective: Objective): boolean => {
  const node = objective === 'R' ? index.tree : index.tree.children.find(({ id }) => id === objective);
  return openVariables(assessment, node?.missing ?? [], kitFacts).some(({ answers }) => answers.length === 0);
};

/**
 * Which question is put next? Facts the figure waits for, then trials that could show another route or need. What was to be seen
 * (a sight) is put as trials; of a fact the listed answers are tried even where others are possible, and the bound stays.
 */
const nextQuestion = (state: OpenState, objective: Objective): OpenVariable | undefined => {
  for (const question of openQuestions(state, objective))
    if (question.covers !== false || question.kind === 'fact') return question;
  return undefined;
};
