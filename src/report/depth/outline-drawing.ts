import { escapeText } from '../html/markup.ts';
import type { DepthPart, DepthZone } from './depth-model.ts';
import { type EntryMark, entryMarks, wedgePath } from './entry-marks.ts';
import { lawBands } from './law-bands.ts';
import { labelSize, type PartLabel, partLabel } from './part-label.ts';
import { slabHeight } from './step-scale.ts';
import { fixed, isolated, zigzag } from './svg-text.ts';

/** One part of the turned section: its line, and where its slab begins [px]. */
export interface OutlineRow {
  readonly index: number;
  readonly part: DepthPart;
  readonly label: PartLabel;
  readonly left: number;
  readonly top: number;
}

/** One face of the turned section [px]. */
export interface Outline {
  readonly name: string;
  readonly marks: readonly EntryMark[];
  readonly rows: readonly OutlineRow[];
  readonly height: number;
  /** Where a step begins, from the left. */
  readonly across: (step: number) => number;
  readonly deepest: number;
}

const rowHeight = 21;
const hatchedRowHeight = 27;
const head = 34;
const faceAt = 1;

/**
 * How does a face look turned on its side? The face stands at the left, depth grows to the right, every part has a line of
 * its own under the part that must be off first. `deepest` is the deepest step of all faces, so that they share a scale. Never wider than asked for, whatever the product.
 */
export function outlineOf(zone: DepthZone, { width, deepest }: { width: number; deepest: number }): Outline {
  const labels = zone.parts.map((part) => partLabel(part, longestLabel(width)));
  const reserve = longestLabel(width) + 4;
  const unit = Math.min(40, (width - reserve - faceAt - 10) / Math.max(1, deepest - 1));
  const across = (step: number) => faceAt + 10 + (step - 1) * unit;
  let top = head;
  const rows = depthFirst(zone.parts).map((index) => {
    const part = zone.parts[index] as DepthPart;
    const row = { index, part, label: labels[index] as PartLabel, left: across(part.step), top };
    top += part.open.kind === 'none' ? rowHeight : hatchedRowHeight;
    return row;
  });
  return { name: zone.name, marks: entryMarks(zone, width), rows, height: top + 4, across, deepest };
}

function longestLabel(width: number): number {
  return Math.min(190, width * 0.5);
}

/** Every part after the one it hangs under, shallow before deep. */
function depthFirst(parts: readonly DepthPart[]): readonly number[] {
  const visit = (parent: number | undefined): readonly number[] =>
    parts
      .flatMap((part, index) => (part.under === parent ? [index] : []))
      .sort((a, b) => (parts[a]?.step ?? 0) - (parts[b]?.step ?? 0) || a - b)
      .flatMap((index) => [index, ...visit(index)]);
  return visit(undefined);
}

/** How is a turned face written as SVG, its top at `top` [px]? */
export function outlinePiece(outline: Outline, top: number, patternId: string): string {
  const bottom = top + outline.height - 4;
  const rowOf = new Map(outline.rows.map((row) => [row.index, row]));
  return [
    `<text class="soft" x="0" y="${fixed(top + 12)}">${escapeText(isolated(outline.name))}</text>`,
    ...outline.marks.map((mark) => markPiece(mark, { baseline: top + 12, points: 'right' })),
    `<line class="face" x1="${faceAt}" x2="${faceAt}" y1="${fixed(top + 18)}" y2="${fixed(bottom)}"/>`,
    ...lawBands
      .filter(({ upTo }) => upTo < outline.deepest)
      .map(({ upTo }) => bandPiece(outline.across(upTo + 1) - 3, { upTo, top, bottom })),
    ...outline.rows.map((row) =>
      riserPiece(row, row.part.under === undefined ? undefined : rowOf.get(row.part.under), top),
    ),
    ...outline.rows.map((row) => rowPiece(row, { outline, top, patternId })),
  ].join('\n');
}

/** How is a mark at a face written as SVG, its words on a baseline [px]? */
export function markPiece(
  { wedge, across, label }: EntryMark,
  { baseline, points }: { baseline: number; points: Parameters<typeof wedgePath>[2] },
): string {
  return (
    `<path class="riser" d="${wedgePath(wedge, baseline - 7.5, points)}"/>` +
    `<text class="soft" x="${fixed(across)}" y="${fixed(baseline)}">${escapeText(isolated(label))}</text>`
  );
}

function bandPiece(x: number, { upTo, top, bottom }: { upTo: number; top: number; bottom: number }): string {
  return (
    `<line class="band" x1="${fixed(x)}" x2="${fixed(x)}" y1="${fixed(top + 30)}" y2="${fixed(bottom)}"/>` +
    `<text class="soft middle" x="${fixed(x)}" y="${fixed(top + 27)}">${upTo}</text>`
  );
}

function riserPiece(row: OutlineRow, parent: OutlineRow | undefined, top: number): string {
  if (!row.part.lineKnown) return '';
  const y = fixed(top + row.top + slabHeight / 2);
  if (parent === undefined) return `<path class="riser" d="M${faceAt} ${y}H${fixed(row.left)}"/>`;
  const from = fixed(top + parent.top + slabHeight);
  return `<path class="riser" d="M${fixed(parent.left + 3)} ${from}V${y}H${fixed(row.left)}"/>`;
}

function rowPiece(
  row: OutlineRow,
  { outline, top, patternId }: { outline: Outline; top: number; patternId: string },
): string {
  const y = top + row.top;
  const heavy = row.part.heavy ? ' heavy' : '';
  return (
    openPiece(row, { outline, y: y + slabHeight, patternId }) +
    `<rect class="slab${heavy}" x="${fixed(row.left)}" y="${fixed(y)}" width="${fixed(row.label.width)}" height="${slabHeight}"/>` +
    `<text class="label${heavy}" font-size="${labelSize}" x="${fixed(row.left + 5)}" y="${fixed(y + slabHeight - 3.7)}">` +
    `${escapeText(isolated(row.label.label))}<tspan class="figure" dx="6">${escapeText(row.label.figure)}</tspan></text>`
  );
}

/** Open depth as a hatched strip under the slab, from its step to the last possible one. */
function openPiece(
  row: OutlineRow,
  { outline, y, patternId }: { outline: Outline; y: number; patternId: string },
): string {
  const { open, step } = row.part;
  if (open.kind === 'none') return '';
  const right =
    open.kind === 'to' ? outline.across(open.step) : outline.across(step) + Math.max(24, row.label.width * 0.6);
  const box = `x="${fixed(row.left)}" y="${fixed(y)}" width="${fixed(right - row.left)}" height="7"`;
  const area = `<rect class="open" fill="url(#${escapeText(patternId)})" ${box}/>`;
  if (open.kind === 'to') return `${area}<rect class="edge" ${box}/>`;
  return `${area}<path class="break" d="M${fixed(right)} ${fixed(y)}${zigzag({ length: 7, teeth: 2, along: 'down' })}"/>`;
}
