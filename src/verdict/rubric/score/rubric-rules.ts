import type { Explained, FigureValue, RuleBook } from '#quantity/explained';
import { compare, dividedBy, plus, rational, times } from '#quantity/rational';
import { exactText, exactValue, shownScore } from '../exact-text.ts';
import type { Condition, Scale } from '../rubric-schema.ts';
import { candidateOf } from './candidate-text.ts';
import { conditionHolds, pointsAt } from './points.ts';
import { NO_PART, NOTHING_APPLIES } from './score-tree.ts';

const word = (value: string): FigureValue => ({ kind: 'word', value });
const textOf = (value: FigureValue | undefined): string => (value?.kind === 'word' ? value.value : '');
const inputText = (node: Explained, ending: string): string | undefined => {
  const found = node.inputs.find(({ address }) => address.endsWith(ending));
  return found && textOf(found.value);
};

const applies = ({ inputs }: Explained): boolean =>
  inputs.every(({ address, value }) => !/^(?:product\/category|roles\/)/.test(address) || textOf(value) === 'yes');

/** Rows of a scale as its inputs give them: what stands before the colon, and the points behind it. */
const rows = (node: Explained, form: string): readonly (readonly [string, number])[] =>
  node.inputs
    .filter(({ address }) => address.includes(`/scale/${form}`))
    .map(({ value }) => {
      const [from = '', points = ''] = textOf(value).split(': ');
      return [from.replace(/:$/, ''), Number(points.replace(/^: ?/, ''))] as const;
    });

const scaleOf = (node: Explained): Scale => {
  const [table, line, words] = [rows(node, 'table/'), rows(node, 'line/'), rows(node, 'words/')];
  const [none] = rows(node, 'none');
  return {
    ...(table.length > 0
      ? { table: table.map(([upTo, points]) => (upTo === '' ? { points } : { upTo, points })) }
      : {}),
    ...(line.length > 0 ? { line: line.map(([at, points]) => ({ at, points })) } : {}),
    ...(words.length > 0 ? { words: Object.fromEntries(words) } : {}),
    ...(none ? { none: none[1] } : {}),
  };
};

const pointsOf = (node: Explained): FigureValue => {
  const [value] = node.children;
  if (!applies(node) || !value) return word(NO_PART.criterion);
  return word(exactText(pointsAt(scaleOf(node), candidateOf(textOf(value.value)))));
};

const capOf = (node: Explained): FigureValue => {
  const [value] = node.children;
  if (!applies(node) || !value) return word(NO_PART.cap);
  const is = inputText(node, '/is')?.split(', ');
  const [above, below] = [inputText(node, '/above'), inputText(node, '/below')];
  const when = {
    ...(above === undefined ? {} : { above }),
    ...(below === undefined ? {} : { below }),
    ...(is ? { is } : {}),
  } as Condition;
  const holds = conditionHolds(when, candidateOf(textOf(value.value)));
  return word(holds ? (inputText(node, '/atMost') ?? '') : NO_PART.cap);
};

const meanOf = ({ children }: Explained): FigureValue => {
  let [weights, weighted] = [rational(0n), rational(0n)];
  for (const child of children) {
    const points = textOf(child.value);
    if (points === NO_PART.criterion) continue;
    const weight = exactValue(inputText(child, '/weight') ?? '0');
    weights = plus(weights, weight);
    weighted = plus(weighted, times(weight, exactValue(points)));
  }
  return word(exactText(dividedBy(weighted, weights)));
};

const cappedOf = ({ children }: Explained): FigureValue => {
  const heights = children.map(({ value }) => textOf(value)).filter((text) => text !== NO_PART.cap);
  const [lowest] = heights.map(exactValue).sort(compare);
  return word(lowest ? exactText(lowest) : '');
};

const widthOf = ({ children }: Explained): FigureValue => {
  const [low, high = low] = children.map(({ value }) => exactValue(textOf(value)));
  if (!low || !high) return { kind: 'not-scorable', why: NOTHING_APPLIES };
  const shown = shownScore(low, high);
  return word(children.length === 1 ? shown.low : `${shown.low} to ${shown.high}`);
};

/** How is each figure of a rubric's tree recomputed from its children and inputs alone? */
export const rubricRules: RuleBook = {
  'rubric/none': () => ({ kind: 'not-scorable', why: NOTHING_APPLIES }),
  'rubric/width': widthOf,
  'rubric/capped': cappedOf,
  'rubric/mean': meanOf,
  'rubric/points': pointsOf,
  'rubric/cap': capOf,
  'rubric/fact': ({ inputs }) => word(textOf(inputs[0]?.value)),
};
