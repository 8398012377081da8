import { escapeText, html, type Markup, trusted } from '../html/markup.ts';
import type { Box } from './boxes.ts';
import { type DrawnPart, layoutZone, type ZoneLayout } from './depth-layout.ts';
import type { DepthZone } from './depth-model.ts';
import { lawBands } from './law-bands.ts';
import { markPiece, type Outline, outlineOf, outlinePiece } from './outline-drawing.ts';
import { labelSize } from './part-label.ts';
import { deepestStep, slabHeight } from './step-scale.ts';
import { fixed, isolated, zigzag } from './svg-text.ts';

/** Which drawing is this? `id` keeps the ids of several drawings on one page apart. */
export interface DrawingOptions {
  readonly id: string;
  /** Width to fit [px]. */
  readonly width: number;
  readonly title: string;
  readonly description: string;
}

const faceMargin = 26;
const coreGap = 34;
const zoneGap = 30;
const turnedGap = 14;
const bandMargin = 92;
/** Under this width [px] the section is always turned. */
const narrowest = 500;
/** Up to this factor a drawing wider than its place is shrunk; beyond, its words would be too small to read. */
const mostShrink = 1.18;

/**
 * How does the depth section look? An SVG: the first face above, the second below and upside down, the core line between
 * them; further faces follow underneath, each by itself. Dotted lines stand at the bands of Annex IV point 5 (2, 5, 10 and
 * 15 steps). Where the parts do not fit side by side the section is turned: faces at the left, one line a part. Same zones,
 * same text.
 */
export function depthDrawing(zones: readonly DepthZone[], options: DrawingOptions): Markup {
  const layouts = uprightLayouts(zones, options.width);
  const { pieces, height, width } = layouts === undefined ? turned(zones, options) : upright(layouts, options);
  const size = `viewBox="0 0 ${fixed(width)} ${fixed(height)}" width="${fixed(width)}" height="${fixed(height)}"`;
  return html`<svg class="depth" role="img" aria-labelledby="${options.id}-t ${options.id}-d" ${trusted(size)}>
<title id="${options.id}-t">${options.title}</title><desc id="${options.id}-d">${options.description}</desc>
<defs><pattern id="${options.id}-h" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line class="hatch" x1="0" y1="0" x2="0" y2="6"/></pattern></defs>
${trusted(pieces.join('\n'))}
</svg>`;
}

/** Do the parts fit side by side into a width [px], so that the section stands upright? */
export function standsUpright(zones: readonly DepthZone[], width: number): boolean {
  return uprightLayouts(zones, width) !== undefined;
}

function uprightLayouts(zones: readonly DepthZone[], width: number): readonly ZoneLayout[] | undefined {
  if (width < narrowest) return undefined;
  const inner = width - bandMargin;
  const layouts = zones.map((zone) => layoutZone(zone, inner));
  return layouts.every((layout) => layout.width <= inner * mostShrink) ? layouts : undefined;
}

interface Drawn {
  readonly pieces: readonly string[];
  readonly height: number;
  readonly width: number;
}

function upright(layouts: readonly ZoneLayout[], options: DrawingOptions): Drawn {
  const inner = Math.max(options.width - bandMargin, ...layouts.map(({ width }) => width));
  const frame = { inner, id: options.id };
  const pieces: string[] = [];
  let down = faceMargin;
  layouts.forEach((layout, index) => {
    pieces.push(zonePiece(layout, { ...frame, top: down, upsideDown: index === 1 }));
    down += layout.scale.height;
    const coreFollows = index === 0 && layouts.length > 1;
    if (coreFollows) pieces.push(coreLine(down + coreGap / 2, frame.inner));
    down += coreFollows ? coreGap : zoneGap + (index > 0 && index < layouts.length - 1 ? faceMargin : 0);
  });
  return { pieces, height: down, width: inner + bandMargin };
}

function turned(zones: readonly DepthZone[], options: DrawingOptions): Drawn {
  const deepest = deepestStep(zones.flatMap(({ parts }) => parts));
  const outlines: readonly Outline[] = zones.map((zone) => outlineOf(zone, { width: options.width, deepest }));
  let down = 0;
  const pieces = outlines.map((outline) => {
    const piece = outlinePiece(outline, down, `${options.id}-h`);
    down += outline.height + turnedGap;
    return piece;
  });
  return { pieces, height: down - turnedGap, width: options.width };
}

interface Frame {
  readonly inner: number;
  readonly id: string;
  readonly top: number;
  readonly upsideDown: boolean;
}

function zonePiece(layout: ZoneLayout, frame: Frame): string {
  const { height } = layout.scale;
  const place = (depth: number) => frame.top + (frame.upsideDown ? height - depth : depth);
  const face = place(0);
  const name = frame.upsideDown ? face + 18 : face - 9;
  return [
    `<line class="face" x1="0" x2="${fixed(frame.inner)}" y1="${fixed(face)}" y2="${fixed(face)}"/>`,
    `<text class="soft" x="0" y="${fixed(name)}">${escapeText(isolated(layout.name))}</text>`,
    ...layout.marks.map((mark) => markPiece(mark, { baseline: name, points: frame.upsideDown ? 'up' : 'down' })),
    ...bandLines(layout, frame, place),
    ...layout.parts.map((part) => riserPiece(part, place)),
    ...layout.parts.map((part) => partPiece(part, frame, place)),
  ].join('\n');
}

type Place = (depth: number) => number;

function bandLines(layout: ZoneLayout, frame: Frame, place: Place): readonly string[] {
  return lawBands
    .filter(({ upTo }) => upTo <= layout.deepest)
    .map(({ upTo, points }) => {
      const y = place((layout.scale.top[upTo + 1] ?? 0) - 1);
      return (
        `<line class="band" x1="0" x2="${fixed(frame.inner + 4)}" y1="${fixed(y)}" y2="${fixed(y)}"/>` +
        `<text class="soft" x="${fixed(frame.inner + 8)}" y="${fixed(y + 4)}">${upTo} steps: ${points} pt</text>`
      );
    });
}

function riserPiece({ riser, slab, part }: DrawnPart, place: Place): string {
  if (!part.lineKnown) return '';
  const path = `M${fixed(riser.across)} ${fixed(place(riser.from))}V${fixed(place(riser.to))}H${fixed(slab.left)}`;
  return `<path class="riser" d="${path}"/>`;
}

function partPiece(drawn: DrawnPart, frame: Frame, place: Place): string {
  const { part, slab, label, figure } = drawn;
  const heavy = part.heavy ? ' heavy' : '';
  const baseline = Math.min(place(slab.top), place(slab.bottom)) + slabHeight - 3.7;
  return (
    hatchPiece(drawn, frame, place) +
    `<rect class="slab${heavy}" ${rectangle(slab, place)}/>` +
    `<text class="label${heavy}" font-size="${labelSize}" x="${fixed(slab.left + 5)}" y="${fixed(baseline)}">` +
    `${escapeText(isolated(label))}<tspan class="figure" dx="6">${escapeText(figure)}</tspan></text>`
  );
}

/** Open depth: hatched down to its end, or, where no end is known, to a break line as in any drawing. */
function hatchPiece({ hatch, part }: DrawnPart, frame: Frame, place: Place): string {
  if (hatch === undefined) return '';
  const area = `<rect class="open" fill="url(#${escapeText(frame.id)}-h)" ${rectangle(hatch, place)}/>`;
  if (part.open.kind !== 'endless') return `${area}<rect class="edge" ${rectangle(hatch, place)}/>`;
  const y = place(hatch.bottom);
  const length = hatch.right - hatch.left;
  const path = zigzag({ length, teeth: Math.max(2, Math.round(length / 10)), along: 'across' });
  return `${area}<path class="break" d="M${fixed(hatch.left)} ${fixed(y - 2)}${path}"/>`;
}

function coreLine(y: number, inner: number): string {
  return (
    `<line class="core" x1="0" x2="${fixed(inner)}" y1="${fixed(y)}" y2="${fixed(y)}"/>` +
    `<text class="soft" x="${fixed(inner + 8)}" y="${fixed(y + 4)}">core</text>`
  );
}

function rectangle(box: Box, place: Place): string {
  const y = Math.min(place(box.top), place(box.bottom));
  return `x="${fixed(box.left)}" y="${fixed(y)}" width="${fixed(box.right - box.left)}" height="${fixed(box.bottom - box.top)}"`;
}
