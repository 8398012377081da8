import type { BasisVerdict, IndexFigures } from '#verdict/verdict';

/** Which figure of a basis is meant: where its explanation stands, and how it is read. */
export interface FigureOf {
  /** Ids on the way down the explanation, gaps allowed. */
  readonly path: readonly string[];
  /** True for steps, which have no upper end by themselves. */
  readonly isCount?: boolean;
  read(figures: IndexFigures): string | number | null | undefined;
}

/** How does one figure of a basis read: as it stands, and the stretch from low to high where open facts leave one? */
export function figureReading(
  basis: BasisVerdict,
  { read, isCount = false }: FigureOf,
): { readonly shown: string; readonly ends?: string } {
  const own = read(basis.figures);
  const low = basis.low === undefined ? undefined : read(basis.low);
  const high = basis.high === undefined ? undefined : read(basis.high);
  const shown = own ?? (basis.figures.notScorable.length > 0 && low == null && high == null ? 'not scorable' : 'open');
  const hasWidth = low !== undefined && high !== undefined && low !== high;
  return { shown: String(shown), ...(hasWidth ? { ends: endsWords(low, high, isCount) } : {}) };
}

/**
 * Low and high are the ends of R; a count of steps runs the other way, so figures are set in their own order. An end without
 * a figure is not scorable; a count of steps without an upper end has no known one.
 */
function endsWords(low: string | number | null, high: string | number | null, isCount: boolean): string {
  if (isCount && (low === null || high === null)) return `${low ?? high} or more`;
  const [first, last] = typeof low === 'number' && typeof high === 'number' && high < low ? [high, low] : [low, high];
  return `${first ?? 'not scorable'} to ${last ?? 'not scorable'}`;
}
