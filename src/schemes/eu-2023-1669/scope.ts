import type { MissingFact } from '#quantity/explained';
import { compare, type Rational, rational, toNumber } from '#quantity/rational';

/** Between which ends does a diagonal lie [in]? Both the same where it is stated without uncertainty. */
export interface DiagonalEnds {
  readonly low: Rational;
  readonly high: Rational;
}

/** What the scope depends on; `undefined` is not known. Diagonals in inches, exact. */
export interface ScopeFacts {
  readonly category: string | undefined;
  readonly diagonal: DiagonalEnds | undefined;
  readonly foldable: boolean | undefined;
  /** The second display, or the one display in its other position, of a foldable. */
  readonly otherDiagonal: DiagonalEnds | undefined;
  readonly keyboardAttached: boolean | undefined;
  readonly mobileOperatingSystem: boolean | undefined;
  readonly rollableMainDisplay: boolean | undefined;
  readonly highSecurity: boolean | undefined;
}

/** A fact that the scope hangs on, and why it is not settled. */
export interface ScopeGap extends MissingFact {
  readonly why: string;
}

/** Is the product in the scope of the index? Out names the reason and the article; open names the facts missing. */
export type ScopeVerdict =
  | { readonly inScope: true }
  | { readonly inScope: false; readonly outOfScope: string; readonly article: string }
  | { readonly inScope: 'open'; readonly missing: readonly ScopeGap[] };

/** Which categories are covered, and from which diagonal up to below which [hundredths of an inch]? Articles 1 and 2. */
export const SIZE_RANGES: Readonly<Record<string, { readonly from: number; readonly below: number }>> = {
  smartphone: { from: 400, below: 700 },
  'slate-tablet': { from: 700, below: 1740 },
};

interface SizeRange {
  readonly from: Rational;
  readonly below: Rational;
}

const rangeFor = (category: string | undefined): SizeRange | undefined => {
  const range = SIZE_RANGES[category ?? ''];
  return range && { from: rational(BigInt(range.from), 100n), below: rational(BigInt(range.below), 100n) };
};

type Judgement = 'fits' | { readonly out: string; readonly article: string } | { readonly open: ScopeGap };

const ARTICLE_1 = 'Regulation (EU) 2023/1669, Article 1';
const ARTICLE_2 = 'Regulation (EU) 2023/1669, Article 2';

const inches = (value: Rational): string => `${Number(toNumber(value).toFixed(4))} in`;

const span = ({ low, high }: DiagonalEnds): string =>
  compare(low, high) === 0 ? inches(low) : `${inches(low)} to ${inches(high)}`;

/** Does a diagonal lie in the range? Undefined where it is not known, or where its two ends have different answers. */
const inRange = (size: DiagonalEnds | undefined, range: SizeRange): boolean | undefined => {
  if (!size) return undefined;
  if (compare(size.low, range.from) >= 0 && compare(size.high, range.below) < 0) return true;
  return compare(size.high, range.from) < 0 || compare(size.low, range.below) >= 0 ? false : undefined;
};

/** One display in range is enough; the other display counts only where the product is a foldable. */
const judgeSize = (facts: ScopeFacts): Judgement => {
  const range = rangeFor(facts.category);
  if (!range) return 'fits';
  const main = inRange(facts.diagonal, range);
  const other = facts.foldable === false ? false : inRange(facts.otherDiagonal, range);
  if (main === true || (other === true && facts.foldable === true)) return 'fits';
  const limits = `${inches(range.from)} to below ${inches(range.below)}`;
  if (main === undefined) return { open: sizeGap('diagonal', facts.diagonal, limits) };
  if (other === undefined && facts.foldable === true)
    return { open: sizeGap('otherDiagonal', facts.otherDiagonal, limits) };
  if (other !== false) return { open: gap('foldable') };
  const sizes = [facts.diagonal, facts.foldable === false ? undefined : facts.otherDiagonal];
  const shown = sizes.flatMap((size) => (size === undefined ? [] : [span(size)])).join(' and ');
  return { out: `${shown} is outside ${limits}`, article: ARTICLE_2 };
};

const judgeFlag = (
  facts: ScopeFacts,
  key: keyof ScopeFacts,
  out: { when: boolean; why: string; article: string },
): Judgement => {
  const value = facts[key];
  if (value === undefined) return { open: gap(key) };
  return value === out.when ? { out: out.why, article: out.article } : 'fits';
};

const judgeCategory = ({ category }: ScopeFacts): Judgement => {
  if (category === undefined) return { open: gap('category') };
  if (SIZE_RANGES[category]) return 'fits';
  return { out: `a ${category} is neither a smartphone nor a slate tablet`, article: ARTICLE_1 };
};

const judgements = (facts: ScopeFacts): readonly Judgement[] => {
  const common = [
    judgeCategory(facts),
    judgeSize(facts),
    judgeFlag(facts, 'rollableMainDisplay', {
      when: true,
      why: 'the main display can be rolled up',
      article: ARTICLE_1,
    }),
  ];
  if (facts.category === 'smartphone')
    return [
      ...common,
      judgeFlag(facts, 'highSecurity', { when: true, why: 'it is a high-security smartphone', article: ARTICLE_1 }),
    ];
  if (facts.category !== 'slate-tablet') return common;
  return [
    ...common,
    judgeFlag(facts, 'keyboardAttached', {
      when: true,
      why: 'it has an attached keyboard as designed',
      article: ARTICLE_2,
    }),
    judgeFlag(facts, 'mobileOperatingSystem', {
      when: false,
      why: 'its operating system is no mobile one',
      article: ARTICLE_2,
    }),
  ];
};

const FACT_WORDS: Readonly<Record<keyof ScopeFacts, string>> = {
  category: 'what category of product it is',
  diagonal: 'the diagonal of the display',
  foldable: 'whether it is foldable',
  otherDiagonal: 'the diagonal of the other display, or in the other position',
  keyboardAttached: 'whether a keyboard is attached as designed',
  mobileOperatingSystem: 'whether the operating system is a mobile one',
  rollableMainDisplay: 'whether the main display can be rolled up',
  highSecurity: 'whether it is a high-security smartphone',
};

const ADDRESSES: Readonly<Record<keyof ScopeFacts, string>> = {
  category: 'product/category',
  diagonal: 'product/diagonal',
  foldable: 'product/foldable/foldingDisplay',
  otherDiagonal: 'product/foldedDiagonal',
  keyboardAttached: 'product/keyboardAttached',
  mobileOperatingSystem: 'product/mobileOperatingSystem',
  rollableMainDisplay: 'product/rollableMainDisplay',
  highSecurity: 'product/highSecurity',
};

const gap = (key: keyof ScopeFacts): ScopeGap => ({
  address: ADDRESSES[key],
  what: FACT_WORDS[key],
  why: 'not recorded, and the scope hangs on it',
  remedy: `record ${ADDRESSES[key]}`,
});

const sizeGap = (key: 'diagonal' | 'otherDiagonal', size: DiagonalEnds | undefined, limits: string): ScopeGap =>
  size === undefined
    ? gap(key)
    : {
        ...gap(key),
        why: `${span(size)} lies partly inside and partly outside ${limits}`,
        remedy: `measure it more closely, or find the diagonal as declared, and record ${ADDRESSES[key]}`,
      };

/**
 * Is the product in the scope of the index? Smartphones from 4.0 to below 7.0 in, slate tablets from 7.0 to below 17.4 in
 * without attached keyboard and with a mobile operating system; not with a rollable main display, not high-security
 * smartphones; of a foldable, one display in range, open or closed, is enough. A diagonal with its
 * uncertainty is judged at both ends. One reason to be out decides, whatever is open besides.
 * Source: Regulation (EU) 2023/1669, Articles 1 and 2 (read).
 */
export const scopeOf = (facts: ScopeFacts): ScopeVerdict => {
  const all = judgements(facts);
  for (const judgement of all)
    if (typeof judgement === 'object' && 'out' in judgement)
      return { inScope: false, outOfScope: judgement.out, article: judgement.article };
  const open = all.flatMap((judgement) =>
    typeof judgement === 'object' && 'open' in judgement ? [judgement.open] : [],
  );
  return open.length > 0 ? { inScope: 'open', missing: open } : { inScope: true };
};
