import { parseQuantity } from '#quantity/parse-quantity';
import { inUnit } from '#quantity/quantity';
import { negated, plus, rational } from '#quantity/rational';
import type { Assessment } from '#record/schema/assessment';
import { type DiagonalEnds, type ScopeVerdict, scopeOf } from '#schemes/eu-2023-1669/scope';

/**
 * Is the product in the scope of the index (Regulation (EU) 2023/1669, Articles 1 and 2)? Facts as recorded; nothing said of
 * folding is open, not a no.
 */
export const scopeVerdict = (assessment: Assessment): ScopeVerdict => {
  const { product } = assessment;
  return scopeOf({
    category: product.category,
    diagonal: diagonalEnds(product.diagonal),
    foldable: foldable(assessment),
    otherDiagonal: diagonalEnds(product.foldedDiagonal),
    keyboardAttached: product.keyboardAttached,
    mobileOperatingSystem: product.mobileOperatingSystem,
    rollableMainDisplay: product.rollableMainDisplay,
    highSecurity: product.highSecurity,
  });
};

/** As stated of the product; else a hinge among the parts shows it, and nothing shows the contrary. */
const foldable = ({ product, parts }: Assessment): boolean | undefined => {
  const stated = product.foldable?.foldingDisplay ?? product.foldable?.hinge;
  const hinge = Object.values(parts ?? {}).some((part) => part.role === 'hinge' && part.absent !== true);
  return stated ?? (hinge || undefined);
};

const diagonalEnds = (text: string | undefined): DiagonalEnds | undefined => {
  const { quantity } = text === undefined ? {} : parseQuantity(text);
  const exact = quantity ? inUnit(quantity, 'in')?.exact : undefined;
  if (!exact) return undefined;
  const half = exact.uncertainty ?? rational(0n);
  return { low: exact.low ?? plus(exact.value, negated(half)), high: exact.high ?? plus(exact.value, half) };
};
