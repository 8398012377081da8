import type { Explained, FigureInput } from '#quantity/explained';
import { explain } from './explain.ts';
import { count, givenInput, inputOf, missingInAll, missingOf, word, yearsFigure } from './figure.ts';
import type { UpdateYears } from './input.ts';
import type { Interpretations } from './interpretations.ts';
import { clause } from './method.ts';
import { roundingWords, UPDATE_KINDS, UPDATE_TABLE } from './update-ladder-rules.ts';

const place = clause('Annex IV point 5, table of SSU');

const kindInputs = (updates: UpdateYears): readonly FigureInput[] =>
  UPDATE_KINDS.map((kind) => inputOf({ address: kind, label: `${kind} updates [years]` }, updates[kind], yearsFigure));

const yearsNode = (updates: UpdateYears, readings: Interpretations): Explained => {
  const node = explain({
    id: 'years',
    label: 'years of updates guaranteed of all three kinds',
    unit: 'a',
    rule: { id: 'eu/SSU-years', clause: place, formula: 'least of security, corrective and functionality updates' },
    inputs: [...kindInputs(updates), givenInput('part-years', 'reading of part-years', word(readings['part-years']))],
    missing: [],
    children: [],
  });
  const rounded = roundingWords(node);
  if (rounded) return { ...node, label: `${node.label}: ${rounded}` };
  if (node.value.kind !== 'open') return node;
  return { ...node, missing: missingInAll(UPDATE_KINDS.map((kind) => missingOf(updates[kind]))) };
};

const nextNode = (updates: UpdateYears, years: number): Explained =>
  explain({
    id: 'next',
    label: 'the next rung',
    rule: { id: 'eu/SSU-next', clause: place, formula: 'kinds of updates that fall short of the next row' },
    inputs: [givenInput('target', 'years of the next row', count(years)), ...kindInputs(updates)],
    missing: missingInAll(UPDATE_KINDS.map((kind) => missingOf(updates[kind]))),
    children: [],
  });

/**
 * What is SSU, and what would the next rung ask for? Years counted from the end of placing on the market, least of the
 * three kinds (Annex IV point 5, table of SSU). Fewer than five years are below the scale.
 */
export const updateScore = (updates: UpdateYears, readings: Interpretations): Explained => {
  const years = yearsNode(updates, readings);
  const node = explain({
    id: 'SSU',
    label: 'software updates',
    rule: { id: 'eu/SSU', clause: place, formula: '7 years or more 5 points, 6 years 3 points, 5 years 1 point' },
    inputs: [],
    missing: years.missing,
    children: [years],
  });
  const reached = node.value.kind === 'decimal' ? node.value.scaled / 100 : undefined;
  const next = UPDATE_TABLE.findLast((row) => reached === undefined || row.points > reached);
  return next ? { ...node, children: [years, nextNode(updates, next.years)] } : node;
};
