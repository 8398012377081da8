import { type Box, collide, moved, rightmost } from './boxes.ts';
import type { DepthPart } from './depth-model.ts';
import { endlessHeight, lineHeight, type StepScale, slabHeight } from './step-scale.ts';

/** One part as it lies in its zone [px]: depth grows downwards, whichever way the zone is drawn later. */
export interface PlacedPart {
  readonly index: number;
  readonly slab: Box;
  readonly hatch: Box | undefined;
  /** The line to what must be off first: straight down at `across`, from `from` to `to`. */
  readonly riser: { readonly across: number; readonly from: number; readonly to: number };
}

/** How is a zone to be packed? */
export interface Packing {
  readonly parts: readonly DepthPart[];
  readonly labelWidths: readonly number[];
  readonly scale: StepScale;
  readonly lines: ReadonlyMap<number, number>;
  /** May parts under one another hang on one line? Narrower, but the line then runs past slabs. */
  readonly sharedRisers: boolean;
}

/** A part with all that hangs under it, its riser at 0. */
interface Block {
  readonly placed: readonly PlacedPart[];
  readonly boxes: readonly Box[];
}

/** Distance from a riser to the slab it serves [px]. */
const slabIndent = 10;
const childIndent = 20;
const gap = { across: 8, down: 3 };
const riserHalf = 1;

/**
 * Where does every part of a zone lie? Depth is given; the place across is chosen part by part, shallow ones first, as
 * far left as nothing is touched: no slab, no hatching and no line of another part. A slab spans all that hangs under it.
 * Cost: about (parts)³ for a zone of one level, far less for deep ones.
 */
export function packZone(packing: Packing): readonly PlacedPart[] {
  const work: Work = { ...packing, blocks: new Map() };
  const block = placeChildren(work, { parent: undefined, bottom: 0, taken: [], first: slabIndent });
  return [...block.placed].sort((a, b) => a.index - b.index);
}

/** A packing under way: blocks already made, by part and line, since a part is tried on every line of its step. */
interface Work extends Packing {
  readonly blocks: Map<string, Block>;
}

interface Bed {
  readonly parent: number | undefined;
  /** Where the risers of the children begin [px]. */
  readonly bottom: number;
  readonly taken: readonly Box[];
  /** The leftmost place of a riser [px]. */
  readonly first: number;
}

function placeChildren(packing: Work, bed: Bed): Block {
  const boxes: Box[] = [...bed.taken];
  const placed: PlacedPart[] = [];
  const risers = new Map<number, Box[]>();
  for (const child of childrenOf(packing.parts, bed.parent)) {
    const { block, across } = bestPlace(packing, child, { bed, boxes, risers });
    for (const part of block.placed) placed.push(shifted(part, across, part.index === child ? bed.bottom : undefined));
    boxes.push(...block.boxes.map((box) => moved(box, across)));
    const own = placed.find(({ index }) => index === child);
    if (own !== undefined && packing.parts[child]?.lineKnown)
      risers.set(across, [...(risers.get(across) ?? []), riserBox(own.riser)]);
  }
  return { placed, boxes: [...boxes, ...[...risers.values()].flat()] };
}

/** Children in the order in which they are laid: with much under them first, then shallow before deep. */
function childrenOf(parts: readonly DepthPart[], parent: number | undefined): readonly number[] {
  const own = parts.flatMap((part, index) => (part.under === parent ? [index] : []));
  const weight = (index: number): number =>
    1 + parts.reduce((sum, part, other) => (part.under === index ? sum + weight(other) : sum), 0);
  const step = (index: number) => parts[index]?.step ?? 0;
  return own.sort((a, b) => weight(b) - weight(a) || step(a) - step(b) || a - b);
}

interface Surroundings {
  readonly bed: Bed;
  readonly boxes: readonly Box[];
  readonly risers: ReadonlyMap<number, readonly Box[]>;
}

function bestPlace(packing: Work, child: number, around: Surroundings): { block: Block; across: number } {
  const part = packing.parts[child];
  const rows = packing.lines.get(part?.step ?? 0) ?? 1;
  let best: { block: Block; across: number } | undefined;
  for (let row = 0; row < rows; row += 1) {
    const block = blockOf(packing, child, row);
    const drop = part?.lineKnown ? dropTo(block, child, around.bed) : undefined;
    const across = firstFreePlace(block, drop, { ...around, sharedRisers: packing.sharedRisers });
    if (best === undefined || across < best.across) best = { block, across };
  }
  return best ?? { block: blockOf(packing, child, 0), across: 0 };
}

/** The line from what must be off first down to a child. */
function dropTo(block: Block, child: number, bed: Bed): Box {
  const own = block.placed.find(({ index }) => index === child);
  return riserBox({ across: 0, from: bed.bottom, to: own?.riser.to ?? bed.bottom });
}

function firstFreePlace(
  block: Block,
  drop: Box | undefined,
  around: Surroundings & { readonly sharedRisers: boolean },
): number {
  const { bed, boxes, risers } = around;
  const afterBoxes = [...boxes, ...[...risers.values()].flat()].map((box) => box.right + gap.across + riserHalf + 1);
  const shared = around.sharedRisers ? [...risers.keys()] : [];
  const candidates = [bed.first, ...shared, ...afterBoxes].filter((across) => across >= bed.first);
  candidates.sort((a, b) => a - b);
  const free = candidates.find((across) => {
    const others = [...risers].flatMap(([place, own]) => (place === across && around.sharedRisers ? [] : own));
    const wanted = [...block.boxes, ...(drop === undefined ? [] : [drop])].map((box) => moved(box, across));
    return wanted.every((box) => [...boxes, ...others].every((taken) => !collide(box, taken, gap)));
  });
  return free ?? rightmost(boxes) + gap.across + slabIndent;
}

/** A part on one of the lines of its step, with all that hangs under it; its own riser is not in the boxes yet. */
function blockOf(packing: Work, index: number, row: number): Block {
  const key = `${index}/${row}`;
  const block = packing.blocks.get(key) ?? makeBlock(packing, index, row);
  packing.blocks.set(key, block);
  return block;
}

function makeBlock(packing: Work, index: number, row: number): Block {
  const part = packing.parts[index];
  const width = packing.labelWidths[index] ?? 0;
  const top = (packing.scale.top[part?.step ?? 1] ?? 0) + row * lineHeight;
  const bottom = top + slabHeight;
  const hasChildren = packing.parts.some(({ under }) => under === index);
  const hatch = hatchOf(packing, index, { top: bottom, right: hasChildren ? slabIndent + 22 : slabIndent + width });
  const first = childIndent + (hatch === undefined || !hasChildren ? 0 : 22);
  const label: Box = { left: slabIndent, top, right: slabIndent + width, bottom };
  const under = placeChildren(packing, { parent: index, bottom, taken: hatch ? [label, hatch] : [label], first });
  const slab = { ...label, right: Math.max(label.right, rightmost(under.boxes)) };
  const riser = { across: 0, from: top, to: top + slabHeight / 2 };
  const boxes = under.boxes.map((box) => (box === label ? slab : box));
  return { placed: [...under.placed, { index, slab, hatch, riser }], boxes };
}

function hatchOf(packing: Packing, index: number, place: { top: number; right: number }): Box | undefined {
  const open = packing.parts[index]?.open ?? { kind: 'none' };
  if (open.kind === 'none') return undefined;
  const end = open.kind === 'endless' ? place.top + endlessHeight : (packing.scale.top[open.step + 1] ?? place.top);
  return { left: slabIndent, top: place.top, right: place.right, bottom: Math.max(place.top + 4, end) };
}

function riserBox({ across, from, to }: PlacedPart['riser']): Box {
  return { left: across - riserHalf, top: from + gap.down, right: across + riserHalf, bottom: to };
}

function shifted(part: PlacedPart, across: number, from: number | undefined): PlacedPart {
  return {
    index: part.index,
    slab: moved(part.slab, across),
    hatch: part.hatch === undefined ? undefined : moved(part.hatch, across),
    riser: { across: part.riser.across + across, from: from ?? part.riser.from, to: part.riser.to },
  };
}
