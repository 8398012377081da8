import { readDecimal } from '#quantity/decimal';
import { showScaled } from '#quantity/explained';
import { dividedBy, type Rational, rational, roundToInteger, times } from '#quantity/rational';
import { invariant } from '#quantity/unfasten-error';

/**
 * A number exactly, as text: whole (`64`), a decimal that ends (`64.5`), or else a fraction (`193/3`). The form in which exact
 * figures stand in documents, results and explanations.
 */
export type ExactText = string;

/** How is a fraction written exactly? */
export const exactText = (value: Rational): ExactText => {
  const { numerator, denominator } = value;
  let [rest, places] = [denominator, 0];
  let scale = 1n;
  while (rest > 1n) {
    const factor = rest % 10n === 0n ? 10n : rest % 2n === 0n ? 2n : rest % 5n === 0n ? 5n : 0n;
    if (factor === 0n) return `${numerator}/${denominator}`;
    rest /= factor;
    places += 1;
    scale *= 10n;
  }
  if (places === 0) return String(numerator);
  const digits = String((numerator < 0n ? -numerator : numerator) * (scale / denominator)).padStart(places + 1, '0');
  const text = `${digits.slice(0, -places)}.${digits.slice(-places)}`.replace(/\.?0+$/, '');
  return numerator < 0n ? `-${text}` : text;
};

/** Which fraction does an exact text, or a number as it was written, stand for? */
export const exactValue = (text: ExactText | number): Rational => {
  const known = values.get(text);
  if (known) return known;
  const value = readExact(text);
  if (values.size < KEPT) values.set(text, value);
  return value;
};

/** Read before: a rubric is scored against many records with the same few numbers. The answer is the same with and without. */
const values = new Map<ExactText | number, Rational>();
const KEPT = 5000;

const readExact = (text: ExactText | number): Rational => {
  const [top = '', bottom] = String(text).split('/');
  const numerator = readDecimal(top).value;
  const denominator = bottom === undefined ? rational(1n) : readDecimal(bottom).value;
  invariant(numerator !== undefined && denominator !== undefined, 'an exact text is a number', String(text));
  return dividedBy(numerator, denominator);
};

/** How does an exact figure read with so many decimals, to the nearest? For tables; the exact text stays beside it in the tree. */
export const roundedText = (text: ExactText, decimals: number): string =>
  showScaled(Number(roundToInteger(times(exactValue(text), rational(10n ** BigInt(decimals))))), decimals);

/**
 * How is a score shown? With one decimal. A settled one is rounded to the nearest, halves up; the ends of a width are rounded
 * outward, so that the width shown is never narrower than it is.
 */
export const shownScore = (low: Rational, high: Rational): { readonly low: string; readonly high: string } => {
  const settled = low.numerator === high.numerator && low.denominator === high.denominator;
  const tenth = ({ numerator, denominator }: Rational, way: 'down' | 'up' | 'nearest'): string => {
    const scaled = numerator * 10n;
    const floor = scaled / denominator;
    const up = way === 'up' ? floor * denominator < scaled : (scaled - floor * denominator) * 2n >= denominator;
    const tenths = way !== 'down' && up ? floor + 1n : floor;
    return `${tenths / 10n}.${tenths % 10n}`;
  };
  if (settled) return { low: tenth(low, 'nearest'), high: tenth(high, 'nearest') };
  return { low: tenth(low, 'down'), high: tenth(high, 'up') };
};
