import type { SightAnswer } from './sight-answer.ts';

/** An answer while it is being given: which of the three, and the sets, kept while another is looked at. */
export interface SightDraft {
  readonly kind: 'sets' | 'free' | 'unknown';
  readonly sets: readonly (readonly string[])[];
}

/** The draft that says what an answer says. */
export const draftOf = (answer: SightAnswer): SightDraft => {
  if (answer === undefined) return { kind: 'unknown', sets: [[]] };
  return answer.length === 0 ? { kind: 'free', sets: [[]] } : { kind: 'sets', sets: answer };
};

/** The answer a draft gives; `unfinished` where a way has nothing ticked, since that would say "nothing" by an oversight. */
export const answerOf = ({ kind, sets }: SightDraft): SightAnswer | 'unfinished' => {
  if (kind === 'unknown') return undefined;
  if (kind === 'free') return [];
  return sets.some((set) => set.length === 0) ? 'unfinished' : sets;
};

/** The draft after one thing was ticked or unticked in one of its sets; sets keep the order of the candidates. */
export const toggled = (
  draft: SightDraft,
  { set: index, thing }: { readonly set: number; readonly thing: string },
  candidates: readonly string[],
): SightDraft => {
  const sets = draft.sets.map((set, place) => {
    if (place !== index) return set;
    return candidates.filter((one) => set.includes(one) !== (one === thing));
  });
  return { ...draft, sets };
};
