import { contradictions, type SubjectTrials } from '#record/log/trials';
import type { Occasion } from './occasions.ts';
import type { SightAnswer } from './sight-answer.ts';

/** What in the record says otherwise than an answer: the entry or trial, and what it shows. */
export interface SightFault {
  /** It did not come though all of `set` was off; or it came while some of every set, here `missing`, was still on. */
  readonly kind: 'did-not-come' | 'came-with-less';
  readonly address: string;
  readonly missing: readonly string[];
}

/**
 * What contradicts an answer to "what had to be off"? A failure with at least as much off as a set that is said to be enough;
 * and a moment at which it came while every set was short of something. For that, `missing` is what the nearest set lacks.
 */
export const sightFaults = (
  subject: string,
  answer: SightAnswer,
  shown: { readonly occasions: readonly Occasion[]; readonly trials: SubjectTrials },
): readonly SightFault[] => {
  if (answer === undefined) return [];
  const own: SubjectTrials = { ...shown.trials, positive: [], sight: answer };
  const failures = new Set(contradictions(new Map([[subject, own]])).map(({ didNot }) => didNot));
  const blocked = [...failures].map((address): SightFault => ({ kind: 'did-not-come', address, missing: [] }));
  if (answer.length === 0) return blocked;
  const early = shown.occasions.flatMap(({ address, off }): readonly SightFault[] => {
    const missing = nearestGap(answer, new Set(off));
    return missing.length === 0 ? [] : [{ kind: 'came-with-less', address, missing }];
  });
  return [...blocked, ...early];
};

const nearestGap = (sets: readonly (readonly string[])[], off: ReadonlySet<string>): readonly string[] =>
  sets.map((set) => set.filter((id) => !off.has(id))).reduce((least, gap) => (gap.length < least.length ? gap : least));
