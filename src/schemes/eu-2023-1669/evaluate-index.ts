import type { Explained } from '#quantity/explained';
import { explain } from './explain.ts';
import { givenInput, inputOf, missingInAll, missingOf, word } from './figure.ts';
import { type IndexForm, indexFigures } from './index-figures.ts';
import { informationScore } from './information-ladder.ts';
import { type IndexInput, PRIORITY_ROLES, type PriorityRole } from './input.ts';
import type { Interpretations } from './interpretations.ts';
import { clause } from './method.ts';
import { PART_SCORES, type PartScore, rolePoints, weightInput } from './role-score.ts';
import { spareScore } from './spare-ladder.ts';
import { updateScore } from './update-ladder.ts';
import { PART_WEIGHTS, rolesOf } from './weights.ts';

/** The index on one basis under one set of readings: the explained tree of R, both classes, and the plain form. */
export interface IndexEvaluation {
  /** R with its six scores below it and everything below those. */
  readonly tree: Explained;
  readonly classUnrounded: Explained;
  readonly classRounded: Explained;
  readonly figures: IndexForm;
}

const LABELS: Readonly<Record<PartScore, string>> = { SDD: 'disassembly depth', SF: 'fasteners', ST: 'tools' };

/** Which roles does an input list? Nine, and the hinge unless the product is known not to be foldable. */
const listedRoles = (input: IndexInput): readonly PriorityRole[] =>
  input.foldable.state === 'known' ? rolesOf(input.foldable.value ? 'foldable' : 'non-foldable') : PRIORITY_ROLES;

const weightInputs = (input: IndexInput) => {
  if (input.foldable.state !== 'known') return [];
  const column = input.foldable.value ? 'foldable' : 'non-foldable';
  return rolesOf(column).map((role) => weightInput(role, PART_WEIGHTS[column][role] ?? 0));
};

const partScore = (input: IndexInput, readings: Interpretations, score: PartScore): Explained => {
  const children = listedRoles(input).map((role) => rolePoints(input, readings, { role, score }));
  return explain({
    id: score,
    label: LABELS[score],
    rule: {
      id: 'eu/weighted-sum',
      clause: clause(`Annex IV point 5, formula of ${score}`),
      formula: 'sum of weight times points over the priority parts',
    },
    inputs: [
      inputOf({ address: 'foldable', label: 'takes the foldable weights' }, input.foldable, (is) =>
        word(is ? 'yes' : 'no'),
      ),
      ...weightInputs(input),
    ],
    missing: missingInAll([missingOf(input.foldable), ...children.map((child) => child.missing)]),
    children,
  });
};

const classNode = (tree: Explained, rounded: boolean): Explained =>
  explain({
    id: rounded ? 'class-rounded' : 'class-unrounded',
    label: rounded ? 'class from R rounded half-up to two decimals' : 'class from R as computed',
    rule: {
      id: rounded ? 'eu/class-rounded' : 'eu/class-unrounded',
      clause: clause('Annex II Table 4'),
      formula: 'A from 4.00, B from 3.35, C from 2.55, D from 1.75, E from 1.00',
    },
    inputs: [givenInput('R', 'R', tree.value)],
    missing: tree.missing,
    children: [],
  });

/** Which class does R fall in, from R as computed and from R rounded, and why (Annex II Table 4)? Beside the tree of R, in this order. */
export const indexClasses = (tree: Explained): readonly [unrounded: Explained, rounded: Explained] => [
  classNode(tree, false),
  classNode(tree, true),
];

/**
 * What is the repairability index of a product on one basis, and why? R = 0.25 SDD + 0.15 (SF + ST + SSP + SSU + SRI) in
 * exact integers, with both classes. Anything open leaves open what needs it, anything below the scale makes its score
 * and R not scorable, never 0; where both apply, not scorable wins.
 * Source: Regulation (EU) 2023/1669, Annex IV point 5 and Annex II Table 4.
 */
export const evaluateIndex = (input: IndexInput, readings: Interpretations): IndexEvaluation => {
  const children = [
    ...PART_SCORES.map((score) => partScore(input, readings, score)),
    spareScore(input),
    updateScore(input.updates, readings),
    informationScore(input),
  ];
  const tree = explain({
    id: 'R',
    label: 'repairability index R',
    rule: {
      id: 'eu/R',
      clause: clause('Annex IV point 5, formula of R'),
      formula: '0.25 SDD + 0.15 (SF + ST + SSP + SSU + SRI)',
    },
    inputs: [],
    missing: missingInAll(children.map((child) => child.missing)),
    children,
  });
  const [classUnrounded, classRounded] = indexClasses(tree);
  return { tree, classUnrounded, classRounded, figures: indexFigures(tree) };
};
