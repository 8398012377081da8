import type { Explained, FigureInput, FigureValue, MissingFact } from '#quantity/explained';
import { compare } from '#quantity/rational';
import { roleName } from '#schemes/role-name';
import { exactText, exactValue, shownScore } from '../exact-text.ts';
import { metricOf, rolesOf } from '../linked-roles.ts';
import { metricKey, metricLabel, unitOf } from '../metric-kinds.ts';
import { isSettled, type RubricFacts, valueText } from '../metric-value.ts';
import type { Cap, Criterion, Rubric, Scale } from '../rubric-schema.ts';
import { candidateText } from './candidate-text.ts';
import type { ScoredEnd } from './score-facts.ts';

/** What stands in the tree for a criterion that does not apply, and for a cap whose condition does not hold. */
export const NO_PART = { criterion: 'does not apply', cap: 'does not hold' } as const;

const word = (value: string): FigureValue => ({ kind: 'word', value });

interface Context {
  readonly rubric: Rubric;
  readonly facts: RubricFacts;
  readonly end: ScoredEnd;
}

/**
 * Why is the score what it is? One tree: the score shown, its two ends (one where they agree), under each the caps and the
 * mean, under the mean every criterion, under that the possibility its metric takes at this end. `rubricRules` recomputes it.
 */
export const scoreTree = (
  rubric: Rubric,
  facts: RubricFacts,
  { low, high }: { readonly low: ScoredEnd | undefined; readonly high: ScoredEnd | undefined },
): Explained => {
  const head = { id: 'score', label: `${rubric.title}, edition ${rubric.edition}`, inputs: [], missing: [] };
  const clause = clauseOf(rubric);
  if (!low || !high)
    return {
      ...head,
      value: { kind: 'not-scorable', why: NOTHING_APPLIES },
      rule: { id: 'rubric/none', clause, formula: 'no criterion, no score' },
      children: [],
    };
  const [lowest, highest] = [low.outcome.capped, high.outcome.capped];
  const shown = shownScore(lowest, highest);
  const settled = compare(lowest, highest) === 0;
  const ends = settled
    ? ([['both', low]] as const)
    : ([
        ['low', low],
        ['high', high],
      ] as const);
  return {
    ...head,
    value: word(settled ? shown.low : `${shown.low} to ${shown.high}`),
    unit: 'of 100',
    rule: {
      id: 'rubric/width',
      clause,
      formula: 'one decimal; a settled score to the nearest, halves up; the ends of a width rounded outward',
    },
    children: ends.map(([id, end]) => endNode(id, { rubric, facts, end })),
  };
};

/** Why is there no score, where no criterion applies? */
export const NOTHING_APPLIES = 'no criterion of the rubric applies to the product';

const clauseOf = ({ id, edition }: Rubric): string => `house rubric ${id}, edition ${edition}`;

const END_LABELS = {
  both: 'the score, exactly',
  low: 'lowest that open facts allow',
  high: 'highest that open facts allow',
} as const;

const endNode = (id: keyof typeof END_LABELS, context: Context): Explained => {
  const { rubric, end } = context;
  const caps = Object.entries(rubric.caps ?? {}).sort(byId);
  return {
    id,
    label: END_LABELS[id],
    value: word(exactText(end.outcome.capped)),
    rule: { id: 'rubric/capped', clause: clauseOf(rubric), formula: 'the mean, or the lowest cap that holds below it' },
    inputs: [],
    missing: [],
    children: [meanNode(context), ...caps.map(([name, cap]) => capNode(name, cap, context))],
  };
};

const byId = ([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number => (a < b ? -1 : a > b ? 1 : 0);

const meanNode = (context: Context): Explained => ({
  id: 'mean',
  label: 'weighted mean of points',
  value: word(exactText(context.end.outcome.mean)),
  rule: {
    id: 'rubric/mean',
    clause: clauseOf(context.rubric),
    formula: 'sum of weight × points over the sum of weights, of the criteria that apply',
  },
  inputs: [],
  missing: [],
  children: Object.entries(context.rubric.criteria)
    .sort(byId)
    .map(([id, criterion]) => criterionNode(id, criterion, context)),
});

/** Which possibility does the metric of an item take at this end, and does the item apply there? */
const takenAt = (id: string, item: Criterion | Cap, { end }: Context) => {
  const key = metricKey(metricOf(item));
  const metric = end.groups.flatMap(({ metrics }) => metrics).find((each) => each.key === key);
  const index = end.outcome.choice.at.get(key) ?? 0;
  const models = 'when' in item ? metric?.caps : metric?.criteria;
  const model = models?.find((each) => each.id === id);
  const there = model?.openRoles.every((role) => end.outcome.choice.roles.get(role) === true) ?? false;
  return { metric, index, model, there };
};

const criterionNode = (id: string, criterion: Criterion, context: Context): Explained => {
  const { metric, index, there } = takenAt(id, criterion, context);
  const points = metric?.criteria.find((each) => each.id === id)?.points[index];
  const { scale, note } = criterion;
  return {
    id,
    label: criterion.title,
    value: word(there && points ? exactText(points) : NO_PART.criterion),
    unit: 'points',
    rule: {
      id: 'rubric/points',
      clause: `${clauseOf(context.rubric)}, criteria/${id}${note === undefined ? '' : `: ${note}`}`,
      formula: scale.line ? 'straight between the points of the line' : 'the row of the scale that holds',
    },
    inputs: [
      input(`criteria/${id}/weight`, 'weight', exactText(exactValue(criterion.weight))),
      ...appliesInputs(criterion, context),
      ...scaleInputs(`criteria/${id}/scale`, scale),
    ],
    missing: [],
    children: there ? [metricNode(id, criterion, context)] : [],
  };
};

const input = (address: string, label: string, value: string): FigureInput => ({
  address,
  label,
  value: word(value),
  evidence: [],
});

const appliesInputs = (item: Criterion | Cap, { facts, end }: Context): readonly FigureInput[] => [
  ...(item.applies?.categories === undefined
    ? []
    : [
        input(
          'product/category',
          `applies to ${item.applies.categories.map(roleName).join(', ')}`,
          (item.applies.categories as readonly string[]).includes(end.category ?? '') ? 'yes' : 'no',
        ),
      ]),
  ...rolesOf(item).map((role) => {
    const answer = facts.roles[role]?.answer ?? 'open';
    const here = answer === 'open' ? (end.outcome.choice.roles.get(role) === true ? 'yes' : 'no') : answer;
    return input(`roles/${role}`, `the product has a part: ${roleName(role)}`, here);
  }),
];

const scaleInputs = (address: string, { table = [], line = [], words = {}, none }: Scale): readonly FigureInput[] => [
  ...table.map(({ upTo, points }, index) =>
    input(`${address}/table/${index}`, upTo === undefined ? 'beyond' : 'up to', `${upTo ?? ''}: ${points}`),
  ),
  ...line.map(({ at, points }, index) => input(`${address}/line/${index}`, 'at', `${at}: ${points}`)),
  ...Object.entries(words)
    .sort(byId)
    .map(([name, points]) => input(`${address}/words/${name}`, roleName(name), `${name}: ${points}`)),
  ...(none === undefined ? [] : [input(`${address}/none`, 'where there is none', `: ${none}`)]),
];

const metricNode = (id: string, item: Criterion | Cap, context: Context): Explained => {
  const { metric, index } = takenAt(id, item, context);
  const asked = metricOf(item);
  const value = context.facts.metrics[metricKey(asked)];
  const at = metric?.candidates[index];
  const taken = at ? candidateText(at) : 'none';
  const missing: readonly MissingFact[] = value && !isSettled(value) ? value.missing : [];
  const unit = unitOf(asked);
  return {
    id: 'value',
    label: metricLabel(asked),
    value: word(taken),
    ...(unit === undefined ? {} : { unit }),
    rule: {
      id: 'rubric/fact',
      clause: 'docs/method/rubric.md, metrics',
      formula: value?.note ?? 'the possibility that this end of the score takes',
    },
    inputs: [
      { ...input(metricKey(asked), 'taken at this end', taken), evidence: value?.evidence ?? [] },
      ...(value ? [input(metricKey(asked), 'possible', valueText(value, { unit }))] : []),
    ],
    missing,
    children: [],
  };
};

const capNode = (id: string, cap: Cap, context: Context): Explained => {
  const { metric, index, there } = takenAt(id, cap, context);
  const model = metric?.caps.find((each) => each.id === id);
  const holds = there && model?.holds[index] === true;
  const { above, below, is } = cap.when;
  return {
    id: `cap ${id}`,
    label: cap.title,
    value: word(holds && model ? exactText(model.atMost) : NO_PART.cap),
    unit: 'at most',
    rule: {
      id: 'rubric/cap',
      clause: `${clauseOf(context.rubric)}, caps/${id}`,
      formula: 'where the condition holds, the score is at most so high',
    },
    inputs: [
      input(`caps/${id}/atMost`, 'at most', exactText(exactValue(cap.atMost))),
      ...appliesInputs(cap, context),
      ...(above === undefined ? [] : [input(`caps/${id}/when/above`, 'above', String(above))]),
      ...(below === undefined ? [] : [input(`caps/${id}/when/below`, 'below', String(below))]),
      ...(is === undefined ? [] : [input(`caps/${id}/when/is`, 'is one of', is.join(', '))]),
    ],
    missing: [],
    children: there ? [metricNode(id, cap, context)] : [],
  };
};
