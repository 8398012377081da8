import type { BasisVerdict } from '#verdict/verdict';
import { escapeText, html, type Markup, trusted } from '../html/markup.ts';
import type { RuleEnds } from './rule-ends.ts';
import { type RuleGeometry, type RuleRow, ruleGeometry } from './rule-geometry.ts';

/** Which drawing is this, and how wide [px]? */
export interface RuleOptions {
  readonly id: string;
  readonly width: number;
  readonly title: string;
  readonly description: string;
  /** What is known of the ends and on the expectation, where an outlook was worked out. */
  readonly ends: readonly RuleEnds[];
}

/**
 * How does the verdict lie on the ruler? An SVG of R from 1 to 5 with the thresholds of Annex II Table 4; under it one
 * stretch a basis: a dark mark at the figure, hatched over anything still possible.
 */
export function ruleDrawing(bases: readonly BasisVerdict[], options: RuleOptions): Markup {
  const geometry = ruleGeometry(bases, options.width, options.ends);
  const { width, height, rows } = geometry;
  const pieces = [
    ...thresholdPieces(geometry),
    ...axisPieces(geometry),
    ...rows.map((row) => rowPiece(row, geometry, options.id)),
  ];
  const size = `viewBox="0 0 ${width} ${height}" width="${width}" height="${height}"`;
  return html`<svg class="rule" role="img" aria-labelledby="${options.id}-t ${options.id}-d" ${trusted(size)}>
<title id="${options.id}-t">${options.title}</title><desc id="${options.id}-d">${options.description}</desc>
<defs><pattern id="${options.id}-h" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line class="hatch" x1="0" y1="0" x2="0" y2="6"/></pattern></defs>
${trusted(pieces.join('\n'))}
</svg>`;
}

function thresholdPieces({ thresholds, classes, height }: RuleGeometry): readonly string[] {
  return [
    ...thresholds.map(
      ({ x, words }) =>
        `<line class="threshold" x1="${fixed(x)}" x2="${fixed(x)}" y1="24" y2="${height - 4}"/>` +
        `<text class="soft middle" x="${fixed(x)}" y="16">${words}</text>`,
    ),
    ...classes.map(({ x, words }) => `<text class="soft middle" x="${fixed(x)}" y="42">${words}</text>`),
  ];
}

function axisPieces({ from, to, axisAt, ticks }: RuleGeometry): readonly string[] {
  return [
    `<line class="axis" x1="${fixed(from)}" x2="${fixed(to)}" y1="${axisAt}" y2="${axisAt}"/>`,
    ...ticks.map(
      ({ x, length }) =>
        `<line class="tick" x1="${fixed(x)}" x2="${fixed(x)}" y1="${axisAt}" y2="${axisAt + length}"/>`,
    ),
  ];
}

function rowPiece(row: RuleRow, rule: RuleGeometry, key: string): string {
  const { words, wordsX, wordsY, middle, own, open } = row;
  const line = `<line class="lane" x1="${fixed(rule.from)}" x2="${fixed(rule.to)}" y1="${middle}" y2="${middle}"/>`;
  const width = open === undefined ? 0 : fixed(open.to - open.from);
  const hatch =
    open === undefined
      ? ''
      : `<rect class="open" fill="url(#${key}-h)" x="${fixed(open.from)}" y="${middle - 8}" width="${width}" height="16"/>` +
        `<rect class="edge" x="${fixed(open.from)}" y="${middle - 8}" width="${width}" height="16"/>`;
  const mark =
    own === undefined ? '' : `<rect class="mark" x="${fixed(own - 2.5)}" y="${middle - 10}" width="5" height="20"/>`;
  return `${line}${hatch}${expectedPiece(row)}${endPieces(row)}${mark}<text class="label" x="${fixed(wordsX)}" y="${wordsY}">${escapeText(words)}</text>`;
}

function expectedPiece({ expected, middle }: RuleRow): string {
  if (expected === undefined) return '';
  const width = fixed(Math.max(3, expected.to - expected.from + 3));
  return `<rect class="expected" x="${fixed(expected.from - 1.5)}" y="${middle - 4}" width="${width}" height="8"/>`;
}

function endPieces({ ends, middle }: RuleRow): string {
  return ends
    .map(({ x, kind, byReading }) => {
      const at = fixed(x);
      const bar =
        kind === undefined
          ? ''
          : `<line class="${kind}" x1="${at}" x2="${at}" y1="${middle - 10}" y2="${middle + 10}"/>`;
      return `${bar}${byReading ? `<circle class="ring" cx="${at}" cy="${middle + 14}" r="3"/>` : ''}`;
    })
    .join('');
}

function fixed(value: number): string {
  return String(Math.round(value * 10) / 10);
}
