import type { BasisVerdict } from '#verdict/verdict';
import { textWidth } from '../look/text-width.ts';
import { basisWords } from '../words/terms.ts';
import type { RuleEnd, RuleEnds } from './rule-ends.ts';

/** Regulation (EU) 2023/1669, Annex II Table 4: the lowest R of each class, in hundredths. */
const classes = [
  { letter: 'E', from: 100, to: 175 },
  { letter: 'D', from: 175, to: 255 },
  { letter: 'C', from: 255, to: 335 },
  { letter: 'B', from: 335, to: 400 },
  { letter: 'A', from: 400, to: 500 },
];
const rowHeight = 50;
const axisAt = 52;
const side = 18;

/** One basis on the ruler: where its figure and its two ends lie, and its words [px]. */
export interface RuleRow {
  readonly basis: BasisVerdict['basis'];
  readonly words: string;
  readonly wordsX: number;
  readonly wordsY: number;
  /** The line the stretch lies on. */
  readonly middle: number;
  /** The figure as it stands; missing where there is none. */
  readonly own?: number;
  /** The stretch of anything still possible; missing where nothing open moves R. */
  readonly open?: { readonly from: number; readonly to: number };
  /** The stretch on the named expectation, inside the other; missing where none is stated. */
  readonly expected?: { readonly from: number; readonly to: number };
  /** Ends that are marked: a bar where proved, a broken bar where only a bound, a ring where another reading moves it. */
  readonly ends: readonly { readonly x: number; readonly kind?: 'exact' | 'bound'; readonly byReading: boolean }[];
}

/** Where everything on the ruler lies [px]. */
export interface RuleGeometry {
  readonly width: number;
  readonly height: number;
  readonly axisAt: number;
  readonly from: number;
  readonly to: number;
  readonly thresholds: readonly { readonly x: number; readonly words: string }[];
  readonly classes: readonly { readonly x: number; readonly words: string }[];
  readonly ticks: readonly { readonly x: number; readonly length: number }[];
  readonly rows: readonly RuleRow[];
}

/** How does the verdict lie on a ruler of this width [px]? R runs from 1 to 5; one row a basis, one below the other. */
export function ruleGeometry(
  bases: readonly BasisVerdict[],
  width: number,
  ends: readonly RuleEnds[] = [],
): RuleGeometry {
  const across = (hundredths: number) => side + ((hundredths - 100) / 400) * (width - 2 * side);
  const edges = [...classes.map(({ from }) => from), 500];
  return {
    width,
    height: axisAt + 30 + bases.length * rowHeight + 4,
    axisAt,
    from: across(100),
    to: across(500),
    thresholds: edges.map((edge) => ({ x: across(edge), words: (edge / 100).toFixed(2) })),
    classes: classes.map(({ letter, from, to }) => ({
      x: across((from + to) / 2),
      words: width < 500 ? letter : `class ${letter}`,
    })),
    ticks: Array.from({ length: 41 }, (_, index) => ({
      x: across(100 + index * 10),
      length: index % 5 === 0 ? 9 : 5,
    })),
    rows: bases.map((basis, index) => {
      const own = ends.find((candidate) => candidate.basis === basis.basis);
      return rowOf(basis, { across, width, top: axisAt + 34 + index * rowHeight, ends: own });
    }),
  };
}

interface Place {
  readonly across: (hundredths: number) => number;
  readonly width: number;
  readonly top: number;
  readonly ends: RuleEnds | undefined;
}

function rowOf(basis: BasisVerdict, { across, width, top, ends }: Place): RuleRow {
  const low = hundredths(ends?.low?.R ?? basis.low?.R ?? basis.figures.R);
  const high = hundredths(ends?.high?.R ?? basis.high?.R ?? basis.figures.R);
  const own = hundredths(basis.figures.R);
  const words = rowWords(basis, ends);
  const anchor = across(own ?? low ?? 100);
  const wide = textWidth(words, 12.5, 'bold');
  return {
    basis: basis.basis,
    words,
    wordsX: Math.max(2, Math.min(width - 2 - wide, anchor - wide / 2)),
    wordsY: top + 12,
    middle: top + 28,
    ...(own === undefined ? {} : { own: across(own) }),
    ...(low !== undefined && high !== undefined && high > low ? { open: { from: across(low), to: across(high) } } : {}),
    ...expectedOf(ends, across),
    ends: [...endMark(low, ends?.low, across), ...(low === high ? [] : endMark(high, ends?.high, across))],
  };
}

function expectedOf(ends: RuleEnds | undefined, across: Place['across']): Pick<RuleRow, 'expected'> {
  const [low, high] = [hundredths(ends?.expected?.low), hundredths(ends?.expected?.high)];
  return low === undefined || high === undefined ? {} : { expected: { from: across(low), to: across(high) } };
}

function endMark(at: number | undefined, end: RuleEnd | undefined, across: Place['across']): RuleRow['ends'] {
  if (at === undefined || end === undefined || (end.kind === undefined && !end.byReading)) return [];
  return [{ x: across(at), byReading: end.byReading, ...(end.kind === undefined ? {} : { kind: end.kind }) }];
}

function rowWords({ basis, figures, low, high }: BasisVerdict, ends: RuleEnds | undefined): string {
  const name = basisWords[basis];
  if (figures.R !== null) return `${name} ${figures.R}`;
  const [from, to] = [ends?.low?.R ?? low?.R, ends?.high?.R ?? high?.R];
  if (from && to) return from === to ? `${name} ${from}` : `${name}: ${from} to ${to}`;
  return figures.notScorable.length > 0 ? `${name}: not scorable` : `${name}: open`;
}

function hundredths(decimal: string | null | undefined): number | undefined {
  return decimal === null || decimal === undefined ? undefined : Number(decimal) * 100;
}
