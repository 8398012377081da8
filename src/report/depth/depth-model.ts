import type { PartVerdict, Verdict } from '#verdict/verdict';

/** How deep may a part still lie below what is certain: not at all, down to a step, or without a known end? */
export type OpenDepth =
  | { readonly kind: 'none' }
  | { readonly kind: 'to'; readonly step: number }
  | { readonly kind: 'endless' };

/** One part as the depth section needs it. */
export interface DepthPart {
  readonly id: string;
  readonly name: string;
  readonly heavy: boolean;
  /** The step at which the part comes free at the earliest; 1 or more. */
  readonly step: number;
  readonly open: OpenDepth;
  /** Index, in the same zone, of the part that its line leads to; undefined where it leads to the face. */
  readonly under: number | undefined;
  /** False where it is not known what must be off first: no line is drawn then. */
  readonly lineKnown: boolean;
  /** Names of further faces it can be reached from, besides the one it lies under. */
  readonly alsoFrom?: readonly string[];
}

/** The parts reached from one face of the product. */
export interface DepthZone {
  readonly name: string;
  readonly parts: readonly DepthPart[];
  /** Parts that lie under another face by their best route, and can be reached from this one too. */
  readonly marks?: readonly { readonly id: string; readonly name: string }[];
}

/** Under which face does a part lie, and from which others can it be reached? By part id; ids of faces. */
export type SidesOfParts = ReadonlyMap<
  string,
  { readonly place: string | undefined; readonly others: readonly string[] }
>;

/**
 * What is known of a part's depth? `undefined` where there is no figure at all, or where no route is shown and nothing says
 * more than that it takes a step.
 */
export function depthOf(part: PartVerdict): { readonly step: number; readonly open: OpenDepth } | undefined {
  const { shown, atLeast } = part.depth;
  const step = atLeast === undefined || (shown !== undefined && shown < atLeast) ? shown : atLeast;
  if (step === undefined || (shown === undefined && step <= 1)) return undefined;
  const first = Math.max(1, step);
  if (shown === undefined) return { step: first, open: { kind: 'endless' } };
  return { step: first, open: shown > first ? { kind: 'to', step: shown } : { kind: 'none' } };
}

/** How do the steps of a part read beside its name? `8`, `8–12`, `8 or more`; in words where nothing is known. */
export function depthWords(part: PartVerdict): string {
  const depth = depthOf(part);
  if (depth === undefined) return 'not known';
  if (depth.open.kind === 'endless') return `${depth.step} or more`;
  return depth.open.kind === 'to' ? `${depth.step}–${depth.open.step}` : String(depth.step);
}

/**
 * Which parts lie under which face? One zone a face in the order of the verdict, then one for parts whose face is not
 * known. A part that can be reached from several faces lies under that of its best route (`sides`; where they are not given,
 * under its recorded face) and leaves a mark at the others. A line leads to the nearest part on the chain of `after` that lies
 * in the same zone and less deep.
 */
export function depthZones(verdict: Verdict, sides: SidesOfParts = new Map()): readonly DepthZone[] {
  const faces = new Map(verdict.faces.map(({ id, name }) => [id, name]));
  const placeOf = ({ part, face: recorded }: PartVerdict) => sides.get(part)?.place ?? recorded;
  const othersOf = ({ part }: PartVerdict) => sides.get(part)?.others ?? [];
  const alsoFrom = (part: PartVerdict) => othersOf(part).flatMap((side) => faces.get(side) ?? []);
  const named = verdict.faces.map(({ id: key, name }) => ({
    name,
    members: verdict.parts.filter((part) => placeOf(part) === key),
    marks: verdict.parts
      .filter((part) => othersOf(part).includes(key) && depthOf(part) !== undefined)
      .map(({ part, name: called }) => ({ id: part, name: called })),
  }));
  const others = verdict.parts.filter((part) => !faces.has(placeOf(part) ?? ''));
  const unnamed = { name: faces.size === 0 ? 'Outside' : 'Face not known', members: others, marks: [] };
  return [...named, unnamed]
    .map(({ name, members, marks }) => ({
      name,
      parts: depthParts(members, { all: verdict.parts, alsoFrom }),
      ...(marks.length > 0 ? { marks } : {}),
    }))
    .filter(({ parts, marks }) => parts.length > 0 || marks !== undefined);
}

function depthParts(
  members: readonly PartVerdict[],
  { all, alsoFrom }: { all: readonly PartVerdict[]; alsoFrom: (part: PartVerdict) => readonly string[] },
): readonly DepthPart[] {
  const placed = members.filter((part) => depthOf(part) !== undefined);
  const indexOf = new Map(placed.map((part, index) => [part.part, index]));
  const afterOf = new Map(all.map((part) => [part.part, part.after]));
  const steps = placed.map((part) => depthOf(part)?.step ?? 1);
  return placed.map((part, index) => ({
    id: part.part,
    name: part.name,
    heavy: part.priority !== undefined,
    step: steps[index] ?? 1,
    open: depthOf(part)?.open ?? { kind: 'none' },
    under: nearestShallower(part.part),
    lineKnown: part.after !== undefined || part.depth.shown !== undefined,
    ...(alsoFrom(part).length > 0 ? { alsoFrom: alsoFrom(part) } : {}),
  }));

  function nearestShallower(id: string): number | undefined {
    const own = steps[indexOf.get(id) ?? 0] ?? 1;
    const seen = new Set([id]);
    for (let above = afterOf.get(id); above !== undefined && !seen.has(above); above = afterOf.get(above)) {
      seen.add(above);
      const index = indexOf.get(above);
      if (index !== undefined && (steps[index] ?? 1) < own) return index;
    }
    return undefined;
  }
}
