import { moved } from './boxes.ts';
import type { DepthPart, DepthZone } from './depth-model.ts';
import { type EntryMark, entryMarks } from './entry-marks.ts';
import { type PlacedPart, packZone } from './pack-zone.ts';
import { partLabel } from './part-label.ts';
import { deepestStep, linesWithin, plainHeight, type StepScale, stepScale } from './step-scale.ts';

/** A part as it is drawn [px]: the text that fits in its slab, and where everything lies. */
export interface DrawnPart extends PlacedPart {
  readonly part: DepthPart;
  readonly label: string;
  readonly figure: string;
}

/** One face with its parts, depth still growing downwards from 0. */
export interface ZoneLayout {
  readonly name: string;
  readonly marks: readonly EntryMark[];
  readonly parts: readonly DrawnPart[];
  readonly scale: StepScale;
  readonly deepest: number;
  readonly width: number;
}

const widestStretch = 1.7;
const longestLabel = 180;
const mostAttempts = 24;
/** After so many attempts that help nothing, the search for room ends. */
const patience = 5;

/**
 * How does a zone fit into a width [px]? First every part on a line of its own; then parts hanging on shared lines; then,
 * step by step, the most crowded step gets another line of slabs. What is left over across is given to all alike. When
 * nothing helps, the layout is wider than asked for, and says so by its `width`.
 */
export function layoutZone(zone: DepthZone, width: number): ZoneLayout {
  const labels = zone.parts.map((part) => partLabel(part, Math.min(longestLabel, width * 0.42)));
  const labelWidths = labels.map(({ width: own }) => own);
  const room = linesWithin(plainHeight(zone.parts));
  const lines = new Map(zone.parts.map(({ step }) => [step, room]));
  let best = attempt(zone.parts, { labelWidths, lines, sharedRisers: false });
  for (let attempts = 0, idle = 0; best.width > width && attempts < mostAttempts && idle < patience; attempts += 1) {
    const next = attempt(zone.parts, { labelWidths, lines, sharedRisers: true });
    idle = next.width < best.width ? 0 : idle + 1;
    if (next.width < best.width) best = next;
    const crowded = mostCrowdedStep(zone.parts, labelWidths, lines);
    if (crowded === undefined) break;
    lines.set(crowded, (lines.get(crowded) ?? 1) + 1);
  }
  const factor = Math.max(1, Math.min(widestStretch, width / best.width));
  const parts = best.placed.map((placed, index) => ({
    ...stretched(placed, factor),
    part: zone.parts[index] as DepthPart,
    label: labels[index]?.label ?? '',
    figure: labels[index]?.figure ?? '',
  }));
  return {
    name: zone.name,
    marks: entryMarks(zone, width),
    parts,
    scale: best.scale,
    deepest: deepestStep(zone.parts),
    width: best.width * factor,
  };
}

interface Attempt {
  readonly placed: readonly PlacedPart[];
  readonly scale: StepScale;
  readonly width: number;
}

function attempt(
  parts: readonly DepthPart[],
  how: { labelWidths: readonly number[]; lines: ReadonlyMap<number, number>; sharedRisers: boolean },
): Attempt {
  const scale = stepScale(parts, how.lines);
  const placed = packZone({ parts, scale, ...how });
  const width = placed.reduce((widest, { slab, hatch }) => Math.max(widest, slab.right, hatch?.right ?? 0), 0) + 1;
  return { placed, scale, width };
}

function mostCrowdedStep(
  parts: readonly DepthPart[],
  labelWidths: readonly number[],
  lines: ReadonlyMap<number, number>,
): number | undefined {
  const loads = new Map<number, { width: number; count: number }>();
  parts.forEach(({ step }, index) => {
    const load = loads.get(step) ?? { width: 0, count: 0 };
    loads.set(step, { width: load.width + (labelWidths[index] ?? 0), count: load.count + 1 });
  });
  const open = [...loads].filter(([step, { count }]) => (lines.get(step) ?? 1) < count);
  const perLine = ([step, { width }]: (typeof open)[number]) => width / (lines.get(step) ?? 1);
  return open.sort((a, b) => perLine(b) - perLine(a) || a[0] - b[0])[0]?.[0];
}

/** A placed part with its places across multiplied; what did not touch before does not touch after. */
function stretched(placed: PlacedPart, factor: number): PlacedPart {
  const grow = (box: PlacedPart['slab']) => ({ ...box, left: box.left * factor, right: box.right * factor });
  return {
    index: placed.index,
    slab: grow(moved(placed.slab, 0)),
    hatch: placed.hatch === undefined ? undefined : grow(placed.hatch),
    riser: { ...placed.riser, across: placed.riser.across * factor },
  };
}
