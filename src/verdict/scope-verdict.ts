import { parseQuantity } from '#quantity/parse-quantity';
import { inUnit } from '#quantity/quantity';
import type { Assessment } from '#record/schema/assessment';
import { type ScopeVerdict, scopeOf } from '#schemes/eu-2023-1669/scope';

/** Is the product in the scope of the index (Regulation (EU) 2023/1669, Articles 1 and 2)? */
export const scopeVerdict = (assessment: Assessment): ScopeVerdict => {
  const { product } = assessment;
  return scopeOf({
    category: product.category,
    diagonalHundredths: hundredthsOfInch(product.diagonal),
    foldable: product.foldable?.foldingDisplay ?? product.foldable?.hinge ?? false,
    otherDiagonalHundredths: hundredthsOfInch(product.foldedDiagonal),
    keyboardAttached: product.keyboardAttached,
    mobileOperatingSystem: product.mobileOperatingSystem,
    rollableMainDisplay: product.rollableMainDisplay,
    highSecurity: product.highSecurity,
  });
};

const hundredthsOfInch = (text: string | undefined): number | undefined => {
  const { quantity } = text === undefined ? {} : parseQuantity(text);
  const inches = quantity ? inUnit(quantity, 'in') : undefined;
  return inches ? Math.round(inches.value * 100) : undefined;
};
