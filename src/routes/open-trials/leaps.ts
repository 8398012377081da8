import type { RouteSource } from '../problem/from-record.ts';
import type { Fact, RouteAction } from '../problem/route-problem.ts';
import { workCondition } from '../problem/work-condition.ts';
import type { OpenTrial } from './with-trial.ts';

/** One thing done in a sequence: what it was done on, and what is off after it. */
export interface SequenceStep {
  readonly subjects: readonly string[];
  readonly gives: readonly Fact[];
}

/** Where does a route rest on something that nobody has shown? See `leapsIn`. */
export const leapsOf = (actions: readonly RouteAction[], source: RouteSource): readonly OpenTrial[] =>
  leapsIn(
    actions.map(({ subject, gives }) => ({ subjects: [subject], gives })),
    source,
  );

/**
 * Where does a sequence rest on something that nobody has shown? For each part or fastener worked on before trials or sight
 * prove it reachable: that thing, and all that is off at that moment. In the order of the sequence.
 */
export const leapsIn = (steps: readonly SequenceStep[], source: RouteSource): readonly OpenTrial[] => {
  const holds = new Set<Fact>();
  const leaps = new Map<string, OpenTrial>();
  for (const { subjects, gives } of steps) {
    // A part that came by the same action as what held it had that released.
    const released = new Set([...holds, ...gives.filter((fact) => fact.startsWith('released/'))]);
    for (const subject of subjects) {
      const then = source.device.fasteners.has(subject) ? holds : released;
      if (!leaps.has(subject) && isOpen(subject, source) && !isShown(subject, then, source))
        leaps.set(subject, { subject, off: offIds(then).filter((id) => id !== subject) });
    }
    for (const fact of gives) holds.add(fact);
  }
  return [...leaps.values()];
};

/** Could a trial say more of it? Not where a sight states the whole function, nor where the record does not describe it. */
export const isOpen = (subject: string, { device, trials }: RouteSource): boolean => {
  if (trials.get(subject)?.sight !== undefined) return false;
  return device.parts.has(subject) || device.fasteners.get(subject)?.record !== undefined;
};

const isShown = (subject: string, holds: ReadonlySet<Fact>, source: RouteSource): boolean => {
  const condition = workCondition(subject, source, 'pessimistic');
  if (!condition.reachable) return false;
  const all = (facts: readonly Fact[]): boolean => facts.every((fact) => holds.has(fact));
  return all(condition.needs) && condition.anyOf.every((clause) => clause.some(all));
};

/** What is off before one action of a route: parts and fasteners, in the order they came. */
export const offAt = (actions: readonly RouteAction[], index: number): readonly string[] =>
  offIds(actions.slice(0, index).flatMap(({ gives }) => gives));

const offIds = (facts: Iterable<Fact>): readonly string[] => [
  ...new Set([...facts].map((fact) => fact.slice(fact.indexOf('/') + 1))),
];
