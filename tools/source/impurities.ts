import { maskSource } from './mask-source.ts';

/** One use of the outside world in a folder that has none. */
export interface Impurity {
  readonly line: number;
  readonly found: string;
  readonly why: string;
}

/**
 * What the compiler's own pass over the pure folders (`tsconfig.pure.json`, without Node and DOM) cannot see, since it is
 * part of the language: clocks, chance, and whatever depends on the reader's language or time zone.
 */
const impure: readonly (readonly [pattern: RegExp, why: string])[] = [
  [/\bDate\.now\b/g, 'reads the clock'],
  [/\bnew Date\(\s*\)/g, 'reads the clock'],
  [/(?<!new )\bDate\(\s*\)/g, 'reads the clock'],
  [/\bMath\.random\b/g, 'is random'],
  [/\.toLocale\w+\(/g, 'depends on the locale'],
  [/\.localeCompare\(/g, 'depends on the locale'],
  [/\bIntl\b/g, 'depends on the locale'],
  [/\.getTimezoneOffset\(/g, 'depends on the time zone'],
  [/\.(?:get|set)(?:FullYear|Month|Date|Day|Hours|Minutes)\(/g, 'depends on the time zone'],
  [/\bglobalThis\b/g, 'reaches for the outside world'],
  [/\bimport\.meta\b/g, 'depends on where the file lies'],
];

/** Where does a source text depend on clock, chance, locale or time zone? Comments and strings do not count. */
export function impuritiesIn(source: string): readonly Impurity[] {
  const code = maskSource(source, { strings: true });
  return impure.flatMap(([pattern, why]) =>
    [...code.matchAll(pattern)].map((match) => ({
      line: code.slice(0, match.index).split('\n').length,
      found: match[0],
      why,
    })),
  );
}
