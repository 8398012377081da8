import { type Explained, type FigureValue, showFigure } from '#quantity/explained';
import { classOf, type IndexClass, roundedR } from './classes.ts';
import { inputValue } from './figure.ts';
import type { PriorityRole } from './input.ts';
import { PART_SCORES, type PartScore } from './role-score.ts';
import { SCORES, type Score } from './weights.ts';

/** From how many steps on is a number only "no upper bound known"? Such a number is never shown as a count. */
export const STEPS_WITHOUT_BOUND = 1_000_000;

/** What was counted and what it earns, for one priority part; null is open, not scorable or (steps) absent. */
export interface PartFigures {
  readonly steps: number | null;
  readonly DD: number | null;
  readonly F: number | null;
  readonly T: number | null;
}

/** The index in plain form: decimals as text so that no digit is lost; null is open or not scorable, never 0. */
export interface IndexForm {
  readonly R: string | null;
  readonly classUnrounded: IndexClass | null;
  readonly classRounded: IndexClass | null;
  readonly scores: Readonly<Record<Score, string | null>>;
  readonly parts: Readonly<Record<string, PartFigures>>;
  readonly notScorable: readonly { readonly what: string; readonly why: string }[];
}

const decimalText = (value: FigureValue | undefined): string | null =>
  value?.kind === 'decimal' ? showFigure(value) : null;

const points = (node: Explained | undefined): number | null => (node?.value.kind === 'count' ? node.value.value : null);

const stepsOf = (instance: Explained): number | null => {
  const steps = instance.children.find((child) => child.id === 'steps')?.value ?? inputValue(instance, 'steps');
  return steps.kind === 'count' && steps.value < STEPS_WITHOUT_BOUND ? steps.value : null;
};

/** Which instances decide a role's points? Those with its points, or of the lowest rank where one stands for all three. */
const decidingInstances = (role: Explained): readonly Explained[] => {
  if (role.rule.id !== 'eu/lowest-instance') return role.children.filter((each) => points(each) === points(role));
  const rank = (each: Explained): number => {
    const value = inputValue(role, `rank/${each.id}`);
    return value.kind === 'count' ? value.value : Number.NEGATIVE_INFINITY;
  };
  const lowest = Math.min(...role.children.map(rank));
  return role.children.filter((each) => rank(each) === lowest);
};

/** The steps of the instance that decides; the most where several do. */
const decidingSteps = (role: Explained | undefined): number | null => {
  if (!role || points(role) === null) return null;
  const steps = decidingInstances(role).map(stepsOf);
  return steps.length === 0 || steps.includes(null) ? null : Math.max(...steps.map(Number));
};

const roleNode = (tree: Explained, score: PartScore, role: string): Explained | undefined =>
  tree.children.find((child) => child.id === score)?.children.find((child) => child.id === role);

const partFigures = (tree: Explained, role: PriorityRole): PartFigures => ({
  steps: decidingSteps(roleNode(tree, 'SDD', role)),
  DD: points(roleNode(tree, 'SDD', role)),
  F: points(roleNode(tree, 'SF', role)),
  T: points(roleNode(tree, 'ST', role)),
});

const notScorableOf = (tree: Explained): IndexForm['notScorable'] =>
  tree.children.flatMap((score) => {
    if (score.value.kind !== 'not-scorable') return [];
    const parts = (PART_SCORES as readonly string[]).includes(score.id);
    const sources = parts
      ? score.children.map((child) => ({ what: `${score.id}/${child.id}`, child }))
      : [{ what: score.id, child: score }];
    return sources.flatMap(({ what, child }) =>
      child.value.kind === 'not-scorable' ? [{ what, why: child.value.why }] : [],
    );
  });

/**
 * What does the index say in plain form? Read off the tree of R. All listed roles appear; an absent one has 5, 5, 5 and no
 * steps. `notScorable` names each place below the scale by its path under R.
 */
export const indexFigures = (tree: Explained): IndexForm => {
  const r = tree.value.kind === 'decimal' ? tree.value.scaled : undefined;
  const score = (name: Score): string | null => decimalText(tree.children.find((child) => child.id === name)?.value);
  const roles = tree.children[0]?.children.map((child) => child.id as PriorityRole) ?? [];
  return {
    R: decimalText(tree.value),
    classUnrounded: r === undefined ? null : (classOf(r) ?? null),
    classRounded: r === undefined ? null : (classOf(roundedR(r) * 100) ?? null),
    scores: Object.fromEntries(SCORES.map((name) => [name, score(name)])) as IndexForm['scores'],
    parts: Object.fromEntries(roles.map((role) => [role, partFigures(tree, role)])),
    notScorable: notScorableOf(tree),
  };
};
