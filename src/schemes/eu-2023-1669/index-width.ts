import { FASTENER_POINTS, TOOL_POINTS } from './bands.ts';
import { candidatesFor, placesBelow } from './completions.ts';
import { evaluateIndex } from './evaluate-index.ts';
import { isSettled } from './fill-open.ts';
import type { IndexForm, PartFigures } from './index-figures.ts';
import { type Finding, type IndexInput, type PartFinding, PRIORITY_ROLES } from './input.ts';
import type { Interpretations } from './interpretations.ts';
import { SCORES } from './weights.ts';

/** Between which two forms does the index lie, whatever the open findings turn out to be? */
export interface IndexWidth {
  /** Floor on the scale: computed with the lowest points there are. */
  readonly low: IndexForm;
  readonly high: IndexForm;
  /** True where what is open could also leave no score at all, at `placesNotScorable`; false where there is none for certain. */
  readonly includesNotScorable: boolean;
  readonly placesNotScorable: readonly string[];
}

const isOpen = (part: PartFinding): boolean =>
  [part.steps, part.fastener, part.tool].some((finding) => finding.state === 'open');

const known = <T>(finding: Finding<T>): readonly T[] => (finding.state === 'known' ? [finding.value] : []);

const rankIn = (table: Readonly<Record<string, number>>, value: string): number => table[value] ?? -1;

/** One instance with the extreme of each finding; findings below the scale are left to decide by themselves. */
const merged = (instances: readonly PartFinding[], best: boolean): readonly PartFinding[] => {
  const [first] = instances;
  const below = instances.filter((part) =>
    [part.steps, part.fastener, part.tool].some((finding) => finding.state !== 'known'),
  );
  if (!first || below.length > 0) return instances;
  const pick = <T>(values: readonly T[], rank: (value: T) => number): Finding<T> => {
    const sorted = [...values].sort((a, b) => rank(a) - rank(b));
    const value = (best ? sorted.at(-1) : sorted[0]) as T;
    return { state: 'known', value, evidence: [], note: 'assumed' };
  };
  const { explained: _, ...plain } = first;
  const steps = pick(
    instances.flatMap((part) => known(part.steps)),
    (value) => -value,
  );
  const fastener = pick(
    instances.flatMap((part) => known(part.fastener)),
    (value) => rankIn(FASTENER_POINTS, value),
  );
  const tool = pick(
    instances.flatMap((part) => known(part.tool)),
    (value) => rankIn(TOOL_POINTS, value),
  );
  return [{ ...plain, steps, fastener, tool }];
};

/** With one instance for all three scores, settling one score can change which instance decides the others. */
const mergedWhereOpen = (original: IndexInput, complete: IndexInput, best: boolean): IndexInput => ({
  ...complete,
  parts: Object.fromEntries(
    PRIORITY_ROLES.map((role) => {
      const { absent, instances } = complete.parts[role];
      const several = instances.length > 1 && original.parts[role].instances.some(isOpen);
      return [role, { absent, instances: several ? merged(instances, best) : instances }];
    }),
  ) as IndexInput['parts'],
});

/** Among the forms that give a number: those that give none are told of as places not scorable. */
const extremeOf = <T extends string | number>(values: readonly (T | null)[], best: boolean): T | null => {
  const numbers = values.flatMap((value) => (value === null ? [] : [value]));
  if (numbers.length === 0) return null;
  return numbers.reduce((chosen, next) => (Number(next) > Number(chosen) === best ? next : chosen));
};

const mergedParts = (forms: readonly IndexForm[], best: boolean): IndexForm['parts'] => {
  const roles = PRIORITY_ROLES.filter((role) => forms.some((form) => form.parts[role]));
  const of = (role: string): readonly PartFigures[] => forms.flatMap((form) => form.parts[role] ?? []);
  const field = (role: string, key: 'DD' | 'F' | 'T') =>
    extremeOf(
      of(role).map((part) => part[key]),
      best,
    );
  // The most steps are unbounded as soon as one form has no number for them.
  const steps = (role: string) => {
    const counts = of(role).map((part) => part.steps);
    return !best && counts.includes(null) ? null : extremeOf(counts, !best);
  };
  return Object.fromEntries(
    roles.map((role) => [
      role,
      { steps: steps(role), DD: field(role, 'DD'), F: field(role, 'F'), T: field(role, 'T') },
    ]),
  );
};

const boundForm = (input: IndexInput, readings: Interpretations, best: boolean): IndexForm => {
  const oneForAll = readings['duplicated-part'] === 'lowest-instance';
  const completions = candidatesFor(input, best);
  const formOf = (complete: IndexInput): IndexForm => evaluateIndex(complete, readings).figures;
  const candidates = completions.map(formOf);
  const form = extremeForm(candidates, best);
  if (completions.length === 1 && !oneForAll) return form;
  const forms = oneForAll ? completions.map((complete) => formOf(mergedWhereOpen(input, complete, best))) : candidates;
  const score = (name: (typeof SCORES)[number]) =>
    extremeOf(
      forms.map((each) => each.scores[name]),
      best,
    );
  return {
    ...form,
    scores: Object.fromEntries(SCORES.map((name) => [name, score(name)])) as IndexForm['scores'],
    parts: mergedParts(forms, best),
  };
};

/** The form with the lowest R, or the highest; the first where none gives a number. */
const extremeForm = (forms: readonly IndexForm[], best: boolean): IndexForm => {
  const r = extremeOf(
    forms.map(({ R }) => R),
    best,
  );
  return (r === null ? undefined : forms.find(({ R }) => R === r)) ?? (forms[0] as IndexForm);
};

/**
 * How wide is the index, given what is open? Sound for R, both classes, each score and each part's points: however the
 * open findings are settled on the scale, the figure lies within. R and the classes belong to one witness each; where the
 * weight column is open, or one instance is taken for all three scores, the other fields are each their own extreme.
 */
export const indexWidth = (input: IndexInput, readings: Interpretations): IndexWidth => {
  if (isSettled(input)) {
    const { figures } = evaluateIndex(input, readings);
    return { low: figures, high: figures, includesNotScorable: false, placesNotScorable: [] };
  }
  const low = boundForm(input, readings, false);
  const already = low.notScorable.map(({ what }) => what);
  const placesNotScorable = placesBelow(input, readings, already);
  const high = boundForm(input, readings, true);
  // What is below the scale already, whatever is open, is no matter of what may still be.
  return { low, high, includesNotScorable: placesNotScorable.length > 0 && high.R !== null, placesNotScorable };
};
