import { type DrawnPart, layoutZone, type ZoneLayout } from '#report/depth/depth-layout';
import type { DepthPart, DepthZone } from '#report/depth/depth-model';
import { type EntryMark, wedgePath } from '#report/depth/entry-marks';
import { lawBands } from '#report/depth/law-bands';
import { type Outline, type OutlineRow, outlineOf } from '#report/depth/outline-drawing';
import { deepestStep, slabHeight } from '#report/depth/step-scale';
import { fixed, zigzag } from '#report/depth/svg-text';

/** An upright rectangle [px]. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One part in the picture: its slab, its words, the line to what must be off first, its open depth. */
export interface SectionPart {
  readonly part: DepthPart;
  readonly label: string;
  readonly figure: string;
  readonly slab: Area;
  /** The line as a path; undefined where it is not known what must be off first. */
  readonly riser: string | undefined;
  /** Depth that open facts may add, and the break line where no end of it is known. */
  readonly open: { readonly area: Area; readonly break: string | undefined } | undefined;
}

/** A line that is no part: a face, a band of the law, the core. */
interface SectionLine {
  readonly kind: 'face' | 'band' | 'core';
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

/** A word that is no part's. */
interface SectionWord {
  readonly text: string;
  readonly at: readonly [number, number];
}

/** A part that lies under another face and can be reached from this one too: an open wedge at the face, and its name. */
interface SectionMark extends SectionWord {
  readonly wedge: string;
}

/** The depth section laid out for one width [px]. */
export interface SectionGeometry {
  readonly width: number;
  readonly height: number;
  readonly lines: readonly SectionLine[];
  readonly words: readonly SectionWord[];
  readonly marks: readonly SectionMark[];
  readonly parts: readonly SectionPart[];
}

const faceMargin = 26;
const coreGap = 34;
const zoneGap = 30;
const bandMargin = 68;
const turnedGap = 14;
/** Under this width [px] the section lies on its side. */
const narrowest = 500;
/** Up to this factor a picture wider than its place is shrunk; beyond, its words would be too small to read. */
const mostShrink = 1.18;
/** More parts than this in a zone, or at one step of it, are not tried side by side: the search would hold up the page. */
const most = { inZone: 60, atStep: 24 };

/**
 * Where does everything of the depth section lie, at a width [px]? The first face above, the second below and upside down,
 * the core between, further faces underneath; on its side where the parts do not fit side by side.
 */
export const sectionGeometry = (zones: readonly DepthZone[], width: number): SectionGeometry => {
  const inner = width - bandMargin;
  const mayStand = width >= narrowest && !zones.some(isCrowded);
  const layouts = mayStand ? zones.map((zone) => layoutZone(zone, inner)) : [];
  const fits = layouts.length > 0 && layouts.every((layout) => layout.width <= inner * mostShrink);
  return fits ? upright(layouts, Math.max(inner, ...layouts.map((layout) => layout.width))) : turned(zones, width);
};

const isCrowded = ({ parts }: DepthZone): boolean => {
  const atStep = new Map<number, number>();
  for (const { step } of parts) atStep.set(step, (atStep.get(step) ?? 0) + 1);
  return parts.length > most.inZone || Math.max(0, ...atStep.values()) > most.atStep;
};

const upright = (layouts: readonly ZoneLayout[], inner: number): SectionGeometry => {
  const pieces: Pieces[] = [];
  let down = faceMargin;
  layouts.forEach((layout, index) => {
    pieces.push(uprightZone(layout, { inner, top: down, upsideDown: index === 1 }));
    down += layout.scale.height;
    const coreFollows = index === 0 && layouts.length > 1;
    if (coreFollows) pieces.push(core(down + coreGap / 2, inner));
    down += coreFollows ? coreGap : zoneGap + (index > 0 && index < layouts.length - 1 ? faceMargin : 0);
  });
  return { ...together(pieces), width: inner + bandMargin, height: down };
};

const turned = (zones: readonly DepthZone[], width: number): SectionGeometry => {
  const deepest = deepestStep(zones.flatMap(({ parts }) => parts));
  let down = 0;
  const pieces = zones.map((zone) => {
    const outline = outlineOf(zone, { width, deepest });
    const piece = turnedZone(outline, down);
    down += outline.height + turnedGap;
    return piece;
  });
  return { ...together(pieces), width, height: Math.max(1, down - turnedGap) };
};

type Pieces = Pick<SectionGeometry, 'lines' | 'words' | 'marks' | 'parts'>;

const together = (pieces: readonly Pieces[]): Pieces => ({
  lines: pieces.flatMap(({ lines }) => lines),
  words: pieces.flatMap(({ words }) => words),
  marks: pieces.flatMap(({ marks }) => marks),
  parts: pieces.flatMap(({ parts }) => parts),
});

const core = (y: number, inner: number): Pieces => ({
  lines: [{ kind: 'core', from: [0, y], to: [inner, y] }],
  words: [{ text: 'core', at: [inner + 8, y + 4] }],
  marks: [],
  parts: [],
});

interface Frame {
  readonly inner: number;
  readonly top: number;
  readonly upsideDown: boolean;
}

const uprightZone = (layout: ZoneLayout, { inner, top, upsideDown }: Frame): Pieces => {
  const place = (depth: number): number => top + (upsideDown ? layout.scale.height - depth : depth);
  const edge = place(0);
  const baseline = upsideDown ? edge + 18 : edge - 9;
  const bands = lawBands
    .filter(({ upTo }) => upTo <= layout.deepest)
    .map(({ upTo }) => ({ upTo, y: place((layout.scale.top[upTo + 1] ?? 0) - 1) }));
  return {
    lines: [
      { kind: 'face', from: [0, edge], to: [inner, edge] },
      ...bands.map(({ y }): SectionLine => ({ kind: 'band', from: [0, y], to: [inner + 4, y] })),
    ],
    words: [
      { text: layout.name, at: [0, baseline] },
      ...bands.map(({ upTo, y }): SectionWord => ({ text: `${upTo} steps`, at: [inner + 8, y + 4] })),
    ],
    marks: layout.marks.map((mark) => markAt(mark, { baseline, points: upsideDown ? 'up' : 'down' })),
    parts: layout.parts.map((drawn) => uprightPart(drawn, place)),
  };
};

const markAt = (
  { wedge, across, label }: EntryMark,
  { baseline, points }: { readonly baseline: number; readonly points: Parameters<typeof wedgePath>[2] },
): SectionMark => ({ wedge: wedgePath(wedge, baseline - 7.5, points), text: label, at: [across, baseline] });

const uprightPart = ({ part, label, figure, slab, hatch, riser }: DrawnPart, place: Place): SectionPart => {
  const { across, from, to } = riser;
  const path = `M${fixed(across)} ${fixed(place(from))}V${fixed(place(to))}H${fixed(slab.left)}`;
  const length = hatch ? hatch.right - hatch.left : 0;
  const zig = zigzag({ length, teeth: Math.max(2, Math.round(length / 10)), along: 'across' });
  const endless = part.open.kind === 'endless';
  return {
    part,
    label,
    figure,
    slab: areaOf(slab, place),
    riser: part.lineKnown ? path : undefined,
    open: hatch && {
      area: areaOf(hatch, place),
      break: endless ? `M${fixed(hatch.left)} ${fixed(place(hatch.bottom) - 2)}${zig}` : undefined,
    },
  };
};

type Place = (depth: number) => number;

const areaOf = ({ left, right, top, bottom }: DrawnPart['slab'], place: Place): Area => ({
  x: left,
  y: Math.min(place(top), place(bottom)),
  width: right - left,
  height: bottom - top,
});

const turnedZone = (outline: Outline, top: number): Pieces => {
  const bottom = top + outline.height - 4;
  const rows = new Map(outline.rows.map((row) => [row.index, row]));
  const bands = lawBands
    .filter(({ upTo }) => upTo < outline.deepest)
    .map(({ upTo }) => ({ upTo, x: outline.across(upTo + 1) - 3 }));
  return {
    lines: [
      { kind: 'face', from: [1, top + 18], to: [1, bottom] },
      ...bands.map(({ x }): SectionLine => ({ kind: 'band', from: [x, top + 30], to: [x, bottom] })),
    ],
    words: [
      { text: outline.name, at: [0, top + 12] },
      ...bands.map(({ upTo, x }): SectionWord => ({ text: String(upTo), at: [x - 6, top + 27] })),
    ],
    marks: outline.marks.map((mark) => markAt(mark, { baseline: top + 12, points: 'right' })),
    parts: outline.rows.map((row) => turnedPart(row, { outline, rows, top })),
  };
};

const turnedPart = (
  row: OutlineRow,
  around: { readonly outline: Outline; readonly rows: ReadonlyMap<number, OutlineRow>; readonly top: number },
): SectionPart => {
  const { outline, rows, top } = around;
  const { part, label, left } = row;
  const y = top + row.top;
  const parent = part.under === undefined ? undefined : rows.get(part.under);
  const start = parent ? `M${fixed(parent.left + 3)} ${fixed(top + parent.top + slabHeight)}V` : 'M1 ';
  const middle = fixed(y + slabHeight / 2);
  return {
    part,
    label: label.label,
    figure: label.figure,
    slab: { x: left, y, width: label.width, height: slabHeight },
    riser: part.lineKnown ? `${start}${middle}H${fixed(left)}` : undefined,
    open: openStrip(row, outline, y + slabHeight),
  };
};

const openStrip = ({ part, label, left }: OutlineRow, outline: Outline, y: number): SectionPart['open'] => {
  const { open, step } = part;
  if (open.kind === 'none') return undefined;
  const right = open.kind === 'to' ? outline.across(open.step) : outline.across(step) + Math.max(24, label.width * 0.6);
  const zig = zigzag({ length: 7, teeth: 2, along: 'down' });
  return {
    area: { x: left, y, width: right - left, height: 7 },
    break: open.kind === 'to' ? undefined : `M${fixed(right)} ${fixed(y)}${zig}`,
  };
};
