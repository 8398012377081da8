import { EXPLANATIONS, type Explanation } from '../model/explanation.ts';
import type { Suspicion } from '../model/suspicion.ts';
import { excludedBy, type Weighed } from './weighing.ts';

/** An explanation that agrees with every run, in its forms that do. */
export interface StandingExplanation {
  readonly explanation: Explanation;
  readonly suspicions: readonly Suspicion[];
}

/** An explanation that runs exclude, and a minimal set of them (ids) that does it: none of them can be left out. */
export interface ExcludedExplanation {
  readonly explanation: Explanation;
  readonly by: readonly string[];
}

/** Which explanations stand, which are excluded by what, and which do not arise? */
export interface Conclusion {
  readonly standing: readonly StandingExplanation[];
  readonly excluded: readonly ExcludedExplanation[];
  /** Nothing in any run could be explained by these: no other revision, no locked home, all settled, all ready, or all passed. */
  readonly moot: readonly Explanation[];
  /** The one explanation left. Undefined is undecided: several stand, none does, or no foreign piece was seen. */
  readonly decided?: Explanation;
}

/** What follows from what is known of each run of a part? */
export const conclude = (weighed: Weighed): Conclusion => {
  const { conflicts } = weighed;
  const { suspicions, moot } = weighed.all;
  const standing: StandingExplanation[] = [];
  const excluded: ExcludedExplanation[] = [];
  for (const explanation of EXPLANATIONS) {
    const which = suspicions.flatMap((suspicion, index) => (suspicion.explanation === explanation ? [index] : []));
    if (which.length === 0) continue;
    const left = which.filter((index) => conflicts[index]?.length === 0);
    if (left.length > 0) standing.push({ explanation, suspicions: left.flatMap((index) => suspicions[index] ?? []) });
    else excluded.push({ explanation, by: excludedBy(weighed, which) ?? [] });
  }
  const [only, ...others] = standing;
  const isDecided = only && others.length === 0 && isForeignSeen(weighed);
  return { standing, excluded, moot, ...(isDecided ? { decided: only.explanation } : {}) };
};

const isForeignSeen = ({ runs, findings }: Weighed): boolean =>
  runs.some(({ isOwn }, place) => !isOwn && (findings[place]?.outcome ?? 'unseen') !== 'unseen');
