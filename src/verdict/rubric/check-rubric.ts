import { compare, rational } from '#quantity/rational';
import { findUnit } from '#quantity/unit';
import { type PathSegment, type ProblemWords, problemAt, type UnplacedProblem } from '#record/problem';
import { unknownNameRemedy } from '#record/suggest';
import { exactValue } from './exact-text.ts';
import { linkedRoles } from './linked-roles.ts';
import { type MetricField, metricKinds } from './metric-kinds.ts';
import type { Condition, Metric, Rubric, Scale } from './rubric-schema.ts';

/** How many roles may hang together, by criteria that name several or share a metric? Every mixture of them is looked at. */
const MOST_LINKED_ROLES = 12;

type Found = (path: readonly PathSegment[], words: ProblemWords) => void;

/**
 * What does a rubric of the right shape still have wrong? Metrics without the fields they need or with others, scales that do
 * not fit their metric or run backwards, weights that are not above zero, conditions that no value can meet.
 */
export const checkRubric = (rubric: Rubric): readonly UnplacedProblem[] => {
  const problems: UnplacedProblem[] = [];
  const found: Found = (path, words) => problems.push(problemAt(path, words));
  for (const [id, { metric, scale, weight }] of Object.entries(rubric.criteria)) {
    const path = ['criteria', id];
    checkMetric(metric, [...path, 'metric'], found);
    checkScale(scale, metric, { path: [...path, 'scale'], found });
    if (compare(exactValue(weight), rational(0n)) <= 0)
      found([...path, 'weight'], {
        value: weight,
        kind: 'value',
        message: 'a weight is above 0',
        remedy: 'Write a larger weight, or take the criterion out.',
      });
  }
  for (const [id, { when }] of Object.entries(rubric.caps ?? {})) {
    checkMetric(when.metric, ['caps', id, 'when', 'metric'], found);
    checkCondition(when, ['caps', id, 'when'], found);
  }
  if (Object.keys(rubric.criteria).length === 0)
    found(['criteria'], {
      kind: 'value',
      message: 'a rubric has at least one criterion',
      remedy: 'Add a criterion with its metric, scale and weight.',
    });
  if (problems.length === 0) checkLinks(rubric, found);
  return problems;
};

const checkMetric = (metric: Metric, path: readonly PathSegment[], found: Found): void => {
  const { fields } = metricKinds[metric.of];
  for (const field of fields)
    if (metric[field] === undefined)
      found(path, {
        kind: 'missing-field',
        message: `the metric "${metric.of}" needs the field "${field}"`,
        remedy: `Add it${field === 'role' ? ', such as role: battery' : ''}.`,
      });
  for (const field of Object.keys(metric))
    if (field !== 'of' && !fields.includes(field as MetricField))
      found([...path, field], {
        value: field,
        at: 'key',
        kind: 'unknown-field',
        message: `the metric "${metric.of}" has no field "${field}"`,
        remedy: `Remove it; it takes ${fields.join(' and ')}.`,
      });
  if (metric.of === 'measured' && metric.unit !== undefined && !findUnit(metric.unit))
    found([...path, 'unit'], {
      value: metric.unit,
      kind: 'quantity',
      message: `"${metric.unit}" is no unit known here`,
      remedy: 'Write a unit such as g, mm, s, kPa, % or Wh.',
    });
};

interface Place {
  readonly path: readonly PathSegment[];
  readonly found: Found;
}

const checkScale = (scale: Scale, metric: Metric, { path, found }: Place): void => {
  const forms = (['table', 'line', 'words'] as const).filter((form) => scale[form] !== undefined);
  const { words, none } = metricKinds[metric.of];
  const fitting = words ? ['words'] : ['table', 'line'];
  if (forms.length !== 1)
    found(path, {
      message: forms.length === 0 ? 'a scale has points' : 'a scale has one form only',
      remedy: `Give ${fitting.join(' or ')}, and no other.`,
    });
  for (const form of forms)
    if (!fitting.includes(form))
      found([...path, form], {
        at: 'key',
        value: form,
        message: `the metric "${metric.of}" is ${words ? 'a word' : 'a number'} and takes no ${form}`,
        remedy: `Write ${fitting.join(' or ')}.`,
      });
  if (scale.none !== undefined && none === undefined)
    found([...path, 'none'], {
      value: scale.none,
      message: `the metric "${metric.of}" always has a value`,
      remedy: 'Remove the field.',
    });
  if (scale.words && words) checkWords(scale.words, words, { path: [...path, 'words'], found });
  if (scale.table) checkTable(scale.table, { path: [...path, 'table'], found });
  if (scale.line)
    checkRising(
      scale.line.map(({ at }) => at),
      'at',
      { path: [...path, 'line'], found },
    );
};

const checkWords = (
  given: Readonly<Record<string, number>>,
  words: readonly string[],
  { path, found }: Place,
): void => {
  for (const word of Object.keys(given))
    if (!words.includes(word))
      found([...path, word], {
        at: 'key',
        value: word,
        kind: 'unknown-field',
        message: 'the metric is never this word',
        remedy: unknownNameRemedy(word, words, `Use one of: ${words.join(', ')}.`),
      });
  const missing = words.filter((word) => given[word] === undefined);
  if (missing.length > 0)
    found(path, {
      kind: 'missing-field',
      message: `no points are given for ${missing.join(', ')}`,
      remedy: 'Give every word that the metric may be its points.',
    });
};

const checkTable = (table: NonNullable<Scale['table']>, { path, found }: Place): void => {
  for (const [index, row] of table.entries()) {
    const last = index === table.length - 1;
    if (last === (row.upTo === undefined)) continue;
    found([...path, index], {
      message: last ? 'the last row holds for everything beyond' : 'only the last row may lack upTo',
      remedy: last ? 'Add a row with points and no upTo.' : 'Write up to which value the row holds.',
    });
  }
  checkRising(
    table.flatMap(({ upTo }) => (upTo === undefined ? [] : [upTo])),
    'upTo',
    { path, found },
  );
};

const checkRising = (values: readonly (string | number)[], field: string, { path, found }: Place): void => {
  for (const [index, value] of values.entries()) {
    const before = values[index - 1];
    if (before === undefined || compare(exactValue(value), exactValue(before)) > 0) continue;
    found([...path, index, field], {
      value,
      kind: 'order',
      message: `this is not above ${before} in the row before`,
      remedy: 'Put the rows in rising order, each value once.',
    });
  }
};

const checkCondition = (when: Condition, path: readonly PathSegment[], found: Found): void => {
  const { words, none } = metricKinds[when.metric.of];
  const tests = (['above', 'below', 'is'] as const).filter((test) => when[test] !== undefined);
  if (tests.length !== 1)
    found(path, {
      message: tests.length === 0 ? 'a condition says when it holds' : 'a condition has one test only',
      remedy: words ? 'Write is with the words.' : 'Write above or below with a number, or is: [none].',
    });
  if (words && (when.above !== undefined || when.below !== undefined))
    found(path, { message: `the metric "${when.metric.of}" is a word`, remedy: 'Write is with the words.' });
  const known = [...(words ?? []), ...(none === undefined ? [] : ['none'])];
  for (const [index, word] of (when.is ?? []).entries())
    if (!known.includes(word))
      found([...path, 'is', index], {
        value: word,
        kind: 'value',
        message: 'the metric is never this word',
        remedy: unknownNameRemedy(word, known, `Use one of: ${known.join(', ') || 'above or below'}.`),
      });
};

const checkLinks = (rubric: Rubric, found: Found): void => {
  for (const group of linkedRoles(rubric))
    if (group.size > MOST_LINKED_ROLES)
      found(['criteria'], {
        value: [...group].sort().join(', '),
        kind: 'limit',
        message: `${group.size} roles hang together through "has" (at most ${MOST_LINKED_ROLES})`,
        remedy: 'Name fewer roles in one criterion, so that they fall into several groups.',
      });
};
