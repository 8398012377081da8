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
}

/** The parts reached from one face of the product. */
export interface DepthZone {
  readonly name: string;
  readonly parts: readonly DepthPart[];
}

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
 * known. A line leads to the nearest part on the chain of `after` that lies in the same zone and less deep.
 */
export function depthZones(verdict: Verdict): readonly DepthZone[] {
  const known = new Set(verdict.faces.map(({ id }) => id));
  const named = verdict.faces.map(({ id: key, name }) => ({
    name,
    members: verdict.parts.filter((part) => part.face === key),
  }));
  const others = verdict.parts.filter((part) => part.face === undefined || !known.has(part.face));
  const unnamed = { name: verdict.faces.length === 0 ? 'Outside' : 'Face not known', members: others };
  return [...named, unnamed]
    .map(({ name, members }) => ({ name, parts: depthParts(members, verdict.parts) }))
    .filter(({ parts }) => parts.length > 0);
}

function depthParts(members: readonly PartVerdict[], all: readonly PartVerdict[]): readonly DepthPart[] {
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
