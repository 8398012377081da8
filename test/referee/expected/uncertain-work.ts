/**
 * The work of a policy by definition, sharing no code with the planner: sets of names, no reductions, nothing clever.
 */

/** One try as the referee sees it. Chances left over are failures. */
export interface TryOf {
  readonly id: string;
  readonly atoms: readonly { readonly tools: readonly string[]; readonly milliseconds: number }[];
  readonly needs: readonly string[];
  readonly anyOf: readonly (readonly (readonly string[])[])[];
  readonly gives: readonly string[];
  readonly success: number;
  readonly damage: number;
}

/** Work whose tries may fail, with what its bad ends cost [ms]. */
export interface UncertainWork {
  readonly pickups: Readonly<Record<string, number>>;
  readonly tries: readonly TryOf[];
  readonly target: string;
  readonly damageLoss: number;
  readonly strandedLoss: number;
}

/** Where the work stands, in names. */
export interface Standing {
  readonly facts: ReadonlySet<string>;
  readonly held: readonly string[];
  readonly exhausted: ReadonlySet<string>;
}

/** Where does all work begin? */
export const atStart: Standing = { facts: new Set(), held: [], exhausted: new Set() };

const holds = (facts: ReadonlySet<string>, one: TryOf): boolean =>
  one.needs.every((fact) => facts.has(fact)) &&
  one.anyOf.every((clause) => clause.some((alternative) => alternative.every((fact) => facts.has(fact))));

/** Which tries can be made now: not exhausted, not impossible, all needs met, something new to give? */
export const possibleNow = (work: UncertainWork, at: Standing): readonly TryOf[] =>
  work.tries.filter((one) => isLeft(one, at) && holds(at.facts, one));

const isLeft = (one: TryOf, at: Standing): boolean =>
  one.success > 0 && !at.exhausted.has(one.id) && one.gives.some((fact) => !at.facts.has(fact));

/** What could come about if everything left went well? */
const atBest = (work: UncertainWork, at: Standing): ReadonlySet<string> => {
  const facts = new Set(at.facts);
  for (let before = -1; before !== facts.size; ) {
    before = facts.size;
    for (const one of work.tries)
      if (isLeft(one, at) && holds(facts, one)) for (const fact of one.gives) facts.add(fact);
  }
  return facts;
};

/** Is the target out of reach for good? */
export const isStranded = (work: UncertainWork, at: Standing): boolean => !atBest(work, at).has(work.target);

/** Which of the tries possible now still serve the target, directly or through a need of one that does? */
export const servingNow = (work: UncertainWork, at: Standing): readonly TryOf[] => {
  const best = atBest(work, at);
  const serves = new Set<string>();
  const visit = (fact: string): void => {
    if (at.facts.has(fact) || serves.has(fact)) return;
    serves.add(fact);
    for (const one of work.tries) {
      if (!isLeft(one, at) || !holds(best, one) || !one.gives.includes(fact)) continue;
      for (const need of one.needs) visit(need);
      for (const clause of one.anyOf) {
        if (clause.some((alternative) => alternative.every((other) => at.facts.has(other)))) continue;
        for (const alternative of clause) if (alternative.every((other) => best.has(other))) alternative.forEach(visit);
      }
    }
  };
  visit(work.target);
  return possibleNow(work, at).filter((one) => one.gives.some((fact) => serves.has(fact)));
};

/** What does a try take now, and what is in hand after it [ms]? Tools new in a set are taken up, the others put down. */
export const timeOf = (
  work: UncertainWork,
  one: TryOf,
  held: readonly string[],
): { time: number; held: readonly string[] } => {
  let time = 0;
  let hand = held;
  for (const atom of one.atoms) {
    time += atom.milliseconds;
    if (atom.tools.length === 0) continue;
    for (const tool of atom.tools) if (!hand.includes(tool)) time += work.pickups[tool] ?? 0;
    hand = [...atom.tools].sort();
  }
  return { time, held: hand };
};

/** Where does the work stand after a try that succeeded or failed? */
export const after = (
  at: Standing,
  one: TryOf,
  { held, isSuccess }: { held: readonly string[]; isSuccess: boolean },
): Standing =>
  isSuccess
    ? { facts: new Set([...at.facts, ...one.gives]), held, exhausted: at.exhausted }
    : { facts: at.facts, held, exhausted: new Set([...at.exhausted, one.id]) };
