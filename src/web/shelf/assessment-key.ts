/**
 * Under which id does an assessment stand on the shelf? Its product's name in the letters an id may have, with a number
 * where that is taken; `assessment` where nothing of the name is left.
 */
export const assessmentKey = (product: string, taken: ReadonlySet<string>): string => {
  const letters = product.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  const key =
    letters
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 60)
      .replace(/-+$/, '') || 'assessment';
  for (let number = 1; ; number++) {
    const candidate = number === 1 ? key : `${key}-${number}`;
    if (!taken.has(candidate)) return candidate;
  }
};
