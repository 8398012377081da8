import type { DepthPart } from './depth-model.ts';

/** Height of one line of slabs [px]. */
export const lineHeight = 20;
/** Height of a slab [px]. */
export const slabHeight = 16;
const stepHeight = { least: 17, most: 42 };
/** A zone is drawn this high [px] where its steps allow it, and no higher than the second figure for empty steps. */
const zoneHeight = { wanted: 300, most: 900 };
/** An open depth without a known end is drawn this deep [px], closed by a break line. */
export const endlessHeight = 18;

/** Where on the drawing does each step lie [px from the face]? `top[s]` is where step s begins. */
export interface StepScale {
  readonly top: readonly number[];
  readonly height: number;
}

/** How deep is the deepest step of these parts, open depth included? */
export function deepestStep(parts: readonly DepthPart[]): number {
  return parts.reduce((deepest, { step, open }) => Math.max(deepest, step, open.kind === 'to' ? open.step : 0), 1);
}

/** How high is a step that needs no more room than any other [px]? High where there are few steps, low where there are many. */
export function plainHeight(parts: readonly DepthPart[]): number {
  const deepest = deepestStep(parts);
  const wanted = Math.max(stepHeight.least, Math.min(stepHeight.most, zoneHeight.wanted / deepest));
  return Math.max(1, Math.min(wanted, zoneHeight.most / deepest));
}

/** How many lines of slabs does every step have room for without growing? */
export function linesWithin(height: number): number {
  return Math.max(1, Math.floor(height / lineHeight));
}

/**
 * How high is each step? Every step has the same height unless it needs several lines of slabs (`lines`, by step);
 * when a product has so many steps that the drawing would be taller than 900 px, steps without a part shrink.
 */
export function stepScale(parts: readonly DepthPart[], lines: ReadonlyMap<number, number>): StepScale {
  const deepest = deepestStep(parts);
  const plain = plainHeight(parts);
  const occupied = new Set(parts.map(({ step }) => step));
  const top = [0, 0];
  for (let step = 1; step <= deepest; step += 1) {
    const height = occupied.has(step) ? Math.max(plain, (lines.get(step) ?? 1) * lineHeight) : plain;
    top[step + 1] = (top[step] ?? 0) + height;
  }
  const endless = parts
    .filter(({ open }) => open.kind === 'endless')
    .map(({ step }) => (top[step + 1] ?? 0) + endlessHeight);
  return { top, height: Math.max(top[deepest + 1] ?? 0, ...endless) };
}
