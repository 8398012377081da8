import type { BasisVerdict } from '#verdict/verdict';
import { escapeText, html, type Markup, trusted } from '../html/markup.ts';
import { textWidth } from '../look/text-width.ts';

/** Which drawing is this, and how wide [px]? */
export interface RuleOptions {
  readonly id: string;
  readonly width: number;
  readonly title: string;
  readonly description: string;
}

/** Regulation (EU) 2023/1669, Annex II Table 4: the lowest R of each class, in hundredths. */
const classes = [
  { letter: 'E', from: 100, to: 175 },
  { letter: 'D', from: 175, to: 255 },
  { letter: 'C', from: 255, to: 335 },
  { letter: 'B', from: 335, to: 400 },
  { letter: 'A', from: 400, to: 500 },
];
const rowHeight = 46;
const axisAt = 52;
const side = 18;

/**
 * How does the verdict lie on the ruler? An SVG of R from 1 to 5 with the thresholds of Annex II Table 4; under it one
 * stretch a basis: a dark mark at the figure, hatched over anything still possible.
 */
export function ruleDrawing(bases: readonly BasisVerdict[], options: RuleOptions): Markup {
  const across = (hundredths: number) => side + ((hundredths - 100) / 400) * (options.width - 2 * side);
  const height = axisAt + 30 + bases.length * rowHeight + 4;
  const pieces = [
    ...thresholdPieces(across, height, options.width < 500),
    ...axisPieces(across),
    ...bases.map((basis, index) => basisPiece(basis, { across, options, top: axisAt + 34 + index * rowHeight })),
  ];
  const size = `viewBox="0 0 ${options.width} ${height}" width="${options.width}" height="${height}"`;
  return html`<svg class="rule" role="img" aria-labelledby="${options.id}-t ${options.id}-d" ${trusted(size)}>
<title id="${options.id}-t">${options.title}</title><desc id="${options.id}-d">${options.description}</desc>
<defs><pattern id="${options.id}-h" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line class="hatch" x1="0" y1="0" x2="0" y2="6"/></pattern></defs>
${trusted(pieces.join('\n'))}
</svg>`;
}

type Across = (hundredths: number) => number;

function thresholdPieces(across: Across, height: number, narrow: boolean): readonly string[] {
  const edges = classes.flatMap(({ from, to }) => (to === 500 ? [from, to] : [from]));
  return [
    ...edges.map((edge) => {
      const x = fixed(across(edge));
      return (
        `<line class="threshold" x1="${x}" x2="${x}" y1="24" y2="${height - 4}"/>` +
        `<text class="soft middle" x="${x}" y="16">${(edge / 100).toFixed(2)}</text>`
      );
    }),
    ...classes.map(({ letter, from, to }) => {
      const words = narrow ? letter : `class ${letter}`;
      return `<text class="soft middle" x="${fixed(across((from + to) / 2))}" y="42">${words}</text>`;
    }),
  ];
}

function axisPieces(across: Across): readonly string[] {
  const ticks = Array.from({ length: 41 }, (_, index) => {
    const x = fixed(across(100 + index * 10));
    return `<line class="tick" x1="${x}" x2="${x}" y1="${axisAt}" y2="${axisAt + (index % 5 === 0 ? 9 : 5)}"/>`;
  });
  return [
    `<line class="axis" x1="${fixed(across(100))}" x2="${fixed(across(500))}" y1="${axisAt}" y2="${axisAt}"/>`,
    ...ticks,
  ];
}

interface Row {
  readonly across: Across;
  readonly options: RuleOptions;
  readonly top: number;
}

function basisPiece(basis: BasisVerdict, { across, options, top }: Row): string {
  const low = hundredths(basis.low?.R ?? basis.figures.R);
  const high = hundredths(basis.high?.R ?? basis.figures.R);
  const own = hundredths(basis.figures.R);
  const middle = top + 28;
  const words = rowWords(basis);
  const anchor = across(own ?? low ?? 100);
  const width = textWidth(words, 12.5, 'bold');
  const x = Math.max(2, Math.min(options.width - 2 - width, anchor - width / 2));
  const line = `<line class="lane" x1="${fixed(across(100))}" x2="${fixed(across(500))}" y1="${middle}" y2="${middle}"/>`;
  const hatch =
    low !== undefined && high !== undefined && high > low
      ? `<rect class="open" fill="url(#${options.id}-h)" x="${fixed(across(low))}" y="${middle - 8}" width="${fixed(across(high) - across(low))}" height="16"/>` +
        `<rect class="edge" x="${fixed(across(low))}" y="${middle - 8}" width="${fixed(across(high) - across(low))}" height="16"/>`
      : '';
  const mark =
    own === undefined
      ? ''
      : `<rect class="mark" x="${fixed(across(own) - 2.5)}" y="${middle - 10}" width="5" height="20"/>`;
  return `${line}${hatch}${mark}<text class="label" x="${fixed(x)}" y="${top + 12}">${escapeText(words)}</text>`;
}

function rowWords({ basis, figures, low, high }: BasisVerdict): string {
  const name = basis === 'best' ? 'best found' : basis;
  if (figures.R !== null) return `${name} ${figures.R}`;
  if (low?.R && high?.R) return `${name}: ${low.R} to ${high.R}`;
  return figures.notScorable.length > 0 ? `${name}: not scorable` : `${name}: open`;
}

function hundredths(decimal: string | null | undefined): number | undefined {
  return decimal === null || decimal === undefined ? undefined : Number(decimal) * 100;
}

function fixed(value: number): string {
  return String(Math.round(value * 10) / 10);
}
