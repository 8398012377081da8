import { readDecimal } from '#quantity/decimal';
import { parseQuantity } from '#quantity/parse-quantity';
import { inUnit } from '#quantity/quantity';
import { compare, negated, plus, type Rational, rational } from '#quantity/rational';
import { DUTY_FIGURES, type DutyFact, type DutyFigure } from '#record/schema/duty-facts';
import { type Answer, openAnswer, settledAnswer } from '../answer.ts';
import type { RowSubject } from '../duty-subject.ts';
import type { FigureCheck } from '../duty-table.ts';
import { FACT_WORDS } from '../fact-words.ts';

const FIND_IT = 'find where it is stated or see it at the bench, and record it with its source';

/** Is a fact on record as asked? A foldable with a foil needs a display that folds; only an established fact settles it. */
export const factAnswer = (
  { fact, is = true }: { readonly fact: DutyFact; readonly is?: boolean },
  { assessment }: RowSubject,
): Answer => {
  const { facts, foldable } = assessment.product;
  const address = `product/facts/${fact}`;
  const stated = facts?.[fact];
  if (fact === 'foil-foldable' && stated === undefined && foldable?.foldingDisplay === false)
    return settledAnswer(!is, 'the display does not fold', [
      { address: 'product/foldable/foldingDisplay', evidence: foldable.evidence },
    ]);
  const label = FACT_WORDS[fact];
  const missing = { address, what: `whether this is so: ${label}`, remedy: FIND_IT };
  if (stated?.is === undefined) return openAnswer(`not on record: ${label}`, [missing]);
  const ground = { address, evidence: stated.evidence, date: stated.date };
  const says = `${label}: ${stated.is ? 'yes' : 'no'}${stated.source === undefined ? '' : ` (${stated.source})`}`;
  if (stated.standing !== 'established')
    return openAnswer(`${says}, ${standingWords(stated.standing)}`, [missing], [ground]);
  return settledAnswer(stated.is === is, says, [ground]);
};

const standingWords = (standing: string | undefined): string =>
  standing === undefined ? 'without standing' : `only ${standing}`;

/** Between which ends does a figure lie, in its own unit? */
interface Ends {
  readonly low: Rational;
  readonly high: Rational;
}

const exactOf = (value: number): Rational | undefined => readDecimal(String(value))?.value;

const endsOf = (value: number | string, unit: string): Ends | undefined => {
  if (typeof value === 'number') {
    const exact = exactOf(value);
    return exact && { low: exact, high: exact };
  }
  const { quantity } = parseQuantity(value);
  const exact = quantity ? inUnit(quantity, unit)?.exact : undefined;
  if (!exact) return undefined;
  const half = exact.uncertainty ?? rational(0n);
  return { low: exact.low ?? plus(exact.value, negated(half)), high: exact.high ?? plus(exact.value, half) };
};

const thresholdWords = ({ atLeast, atMost, above }: FigureCheck): string => {
  if (atLeast !== undefined) return `asked ${atLeast} or more`;
  return above === undefined ? `asked ${atMost} or less` : `looked for above ${above}`;
};

/** Does a figure meet its threshold at both its ends? Undefined where the ends have different answers, or the law tells cases apart. */
const meets = ({ low, high }: Ends, { atLeast, atMost, above, openUpTo }: FigureCheck): boolean | undefined => {
  const at = (limit: number): Rational => exactOf(limit) ?? rational(0n);
  const sides = (limit: number, yesIf: (order: number) => boolean): boolean | undefined => {
    const [first, last] = [yesIf(compare(low, at(limit))), yesIf(compare(high, at(limit)))];
    return first === last ? first : undefined;
  };
  if (atLeast !== undefined) return sides(atLeast, (order) => order >= 0);
  if (above !== undefined) return sides(above, (order) => order > 0);
  const within = sides(atMost ?? 0, (order) => order <= 0);
  return within === false && openUpTo !== undefined && compare(low, at(openUpTo)) <= 0 ? undefined : within;
};

/** Does a figure on record meet its threshold? Exact, at both ends of its spread; equality meets `atLeast` and `atMost`. */
export const figureAnswer = (check: FigureCheck, { assessment }: RowSubject): Answer => {
  const address = `product/figures/${check.figure}`;
  const unit = DUTY_FIGURES[check.figure];
  const label = figureName(check.figure);
  const stated = assessment.product.figures?.[check.figure];
  const missing = { address, what: `${label} [${unit}]: ${thresholdWords(check)}`, remedy: FIND_IT };
  if (stated?.is === undefined) return openAnswer(`not on record: ${label}`, [missing]);
  const ground = { address, evidence: stated.evidence, date: stated.date };
  const shown = typeof stated.is === 'number' ? `${stated.is} ${unit}` : stated.is;
  const says = `${label}: ${shown}, ${thresholdWords(check)}${stated.source === undefined ? '' : ` (${stated.source})`}`;
  if (stated.standing !== 'established')
    return openAnswer(`${says}, ${standingWords(stated.standing)}`, [missing], [ground]);
  const ends = endsOf(stated.is, unit);
  const answer = ends && meets(ends, check);
  if (answer !== undefined) return settledAnswer(answer, says, [ground]);
  const why = ends ? 'which leaves both open' : `which is not in ${unit}`;
  return openAnswer(`${says}, ${why}`, [{ ...missing, remedy: 'measure or state it more closely' }], [ground]);
};

/** How is a figure called? */
const figureName = (figure: DutyFigure): string => figure.replaceAll('-', ' ').replace('80 percent', '80 %');

const digit = (code: string, at: number): number | undefined => (code[at] === 'X' ? undefined : Number(code[at]));

/** Is the product protected from dust and water as far as a code asks? Each digit at or above the one asked for. */
export const ingressAnswer = (asked: string, { assessment }: RowSubject): Answer => {
  const stated = assessment.product.ingress;
  const address = 'product/ingress/code';
  const missing = { address, what: `protection from dust and water: asked ${asked} or more`, remedy: FIND_IT };
  if (stated === undefined) return openAnswer('not on record: protection from dust and water', [missing]);
  const ground = { address, evidence: stated.evidence, date: stated.date };
  const says = `${stated.code}, asked ${asked}${stated.source === undefined ? '' : ` (${stated.source})`}`;
  if (stated.standing !== 'established')
    return openAnswer(`${says}, ${standingWords(stated.standing)}`, [missing], [ground]);
  const digits = [2, 3].map((at) => {
    const [found, least] = [digit(stated.code, at), digit(asked, at) ?? 0];
    return found === undefined ? undefined : found >= least;
  });
  if (digits.includes(false)) return settledAnswer(false, says, [ground]);
  return digits.includes(undefined) ? openAnswer(says, [missing], [ground]) : settledAnswer(true, says, [ground]);
};
