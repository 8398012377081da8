import type { MissingFact } from '#quantity/explained';

/** What the scope depends on; `undefined` is not known. Diagonals in hundredths of an inch. */
export interface ScopeFacts {
  readonly category: string | undefined;
  readonly diagonalHundredths: number | undefined;
  readonly foldable: boolean | undefined;
  /** The second display, or the one display in its other position, of a foldable. */
  readonly otherDiagonalHundredths: number | undefined;
  readonly keyboardAttached: boolean | undefined;
  readonly mobileOperatingSystem: boolean | undefined;
  readonly rollableMainDisplay: boolean | undefined;
  readonly highSecurity: boolean | undefined;
}

/** Is the product in the scope of the index? Out names the reason and the article; open names the facts missing. */
export type ScopeVerdict =
  | { readonly inScope: true }
  | { readonly inScope: false; readonly outOfScope: string; readonly article: string }
  | { readonly inScope: 'open'; readonly missing: readonly MissingFact[] };

/** Which categories are covered, and from which diagonal up to below which [hundredths of an inch]? Articles 1 and 2. */
export const SIZE_RANGES: Readonly<Record<string, { readonly from: number; readonly below: number }>> = {
  smartphone: { from: 400, below: 700 },
  'slate-tablet': { from: 700, below: 1740 },
};

type Judgement = 'fits' | { readonly out: string; readonly article: string } | { readonly open: keyof ScopeFacts };

const ARTICLE_1 = 'Regulation (EU) 2023/1669, Article 1';
const ARTICLE_2 = 'Regulation (EU) 2023/1669, Article 2';

const inches = (hundredths: number): string => `${hundredths / 100} in`;

const judgeSize = (facts: ScopeFacts): Judgement => {
  const range = SIZE_RANGES[facts.category ?? ''];
  if (!range) return 'fits';
  const sizes = [facts.diagonalHundredths, ...(facts.foldable === false ? [] : [facts.otherDiagonalHundredths])];
  const fits = (size: number | undefined): boolean => size !== undefined && size >= range.from && size < range.below;
  if (sizes.some(fits)) return 'fits';
  if (facts.diagonalHundredths === undefined) return { open: 'diagonalHundredths' };
  if (facts.foldable === undefined) return { open: 'foldable' };
  if (facts.foldable && facts.otherDiagonalHundredths === undefined) return { open: 'otherDiagonalHundredths' };
  const shown = sizes.flatMap((size) => (size === undefined ? [] : [inches(size)])).join(' and ');
  return { out: `${shown} is outside ${inches(range.from)} to below ${inches(range.below)}`, article: ARTICLE_2 };
};

const judgeFlag = (
  facts: ScopeFacts,
  key: keyof ScopeFacts,
  out: { when: boolean; why: string; article: string },
): Judgement => {
  const value = facts[key];
  if (value === undefined) return { open: key };
  return value === out.when ? { out: out.why, article: out.article } : 'fits';
};

const judgeCategory = ({ category }: ScopeFacts): Judgement => {
  if (category === undefined) return { open: 'category' };
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
  category: 'the category',
  diagonalHundredths: 'the screen diagonal',
  foldable: 'whether it is foldable',
  otherDiagonalHundredths: 'the diagonal of the other display, or in the other position',
  keyboardAttached: 'whether a keyboard is attached as designed',
  mobileOperatingSystem: 'whether the operating system is a mobile one',
  rollableMainDisplay: 'whether the main display can be rolled up',
  highSecurity: 'whether it is a high-security smartphone',
};

const ADDRESSES: Readonly<Record<keyof ScopeFacts, string>> = {
  category: 'product.category',
  diagonalHundredths: 'product.diagonal',
  foldable: 'product.foldable.foldingDisplay',
  otherDiagonalHundredths: 'product.foldedDiagonal',
  keyboardAttached: 'product.keyboardAttached',
  mobileOperatingSystem: 'product.mobileOperatingSystem',
  rollableMainDisplay: 'product.rollableMainDisplay',
  highSecurity: 'product.highSecurity',
};

const missing = (key: keyof ScopeFacts): MissingFact => ({
  address: ADDRESSES[key],
  what: `${FACT_WORDS[key]} is not known`,
  remedy: `Record ${ADDRESSES[key]}.`,
});

/**
 * Is the product in the scope of the index? Smartphones from 4.0 to below 7.0 in, slate tablets from 7.0 to below 17.4 in
 * without attached keyboard and with a mobile operating system; not with a rollable main display, not high-security
 * smartphones; of a foldable, one display in range, open or closed, is enough. One reason to be out decides, whatever is
 * open besides.
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
  return open.length > 0 ? { inScope: 'open', missing: open.map(missing) } : { inScope: true };
};
