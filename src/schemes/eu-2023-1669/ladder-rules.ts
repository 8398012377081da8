import { type Explained, type FigureValue, type RuleBook, showFigure } from '#quantity/explained';
import { decimal, isNotScorable, notScorable, OPEN, word } from './figure.ts';

const isNo = (value: FigureValue): boolean => isNotScorable(value) || (value.kind === 'word' && value.value === 'no');
const isYes = (value: FigureValue): boolean => value.kind === 'word' && value.value === 'yes';

/** A rung is reached when every requirement is shown, not reached when one is shown to fail, else open. */
const rung = (node: Explained): FigureValue => {
  const values = node.inputs.map((input) => input.value);
  if (values.some(isNo)) return word('not reached');
  return values.every(isYes) ? word('reached') : OPEN;
};

/** What points does a rung node stand for? From its id, `rung-4`; `undefined` for other children. */
const pointsOfRung = (node: Explained): number | undefined => {
  const match = /^rung-([1-5])$/.exec(node.id);
  return match ? Number(match[1]) : undefined;
};

const failing = (node: Explained): string =>
  node.inputs
    .filter((input) => isNo(input.value))
    .map((input) => (isNotScorable(input.value) ? `${input.label} (${input.value.why})` : input.label))
    .join(', ');

/** The highest rung reached, provided that every rung above is shown not to be; below the lowest there are no points. */
const ladder = (node: Explained): FigureValue => {
  const rungs = node.children
    .flatMap((child) => ({ child, points: pointsOfRung(child) ?? [] }))
    .flatMap(({ child, points }) => (typeof points === 'number' ? [{ child, points }] : []))
    .sort((a, b) => b.points - a.points);
  for (const { child, points } of rungs) {
    if (child.value.kind === 'open') return OPEN;
    if (child.value.kind === 'word' && child.value.value === 'reached') return decimal(points * 100, 2);
  }
  const last = rungs.at(-1);
  return notScorable(
    `the lowest rung, ${last?.points} point, asks for what is not given: ${last ? failing(last.child) : ''}`,
  );
};

/** What would the next rung ask for that is not shown? Each requirement with its state. */
const nextRung = (node: Explained): FigureValue => {
  const [target, ...asked] = node.inputs;
  const lacking = asked.filter((input) => !isYes(input.value));
  const listed = lacking.map((input) => `${input.label}: ${isNo(input.value) ? 'no' : 'open'}`).join('; ');
  return word(`${target ? showFigure(target.value) : ''} points ask for ${listed}`);
};

/** How are the ladders of spare parts and repair information climbed? */
export const ladderRules: RuleBook = { 'eu/rung': rung, 'eu/ladder': ladder, 'eu/next-rung': nextRung };
