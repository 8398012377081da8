import type { DepthPart } from './depth-model.ts';

/** Height of one line of slabs [px], of a slab, and of a step in which no part comes free. */
export const lineHeight = 20;
/** Height of a slab [px]. */
export const slabHeight = 16;
const stepHeight = 17;
const tallestDrawing = 900;
/** An open depth without a known end is drawn this deep [px], closed by a break line. */
export const endlessHeight = 30;

/** Where on the drawing does each step lie [px from the face]? `top[s]` is where step s begins. */
export interface StepScale {
  readonly top: readonly number[];
  readonly height: number;
}

/** How deep is the deepest step of these parts, open depth included? */
export function deepestStep(parts: readonly DepthPart[]): number {
  return parts.reduce((deepest, { step, open }) => Math.max(deepest, step, open.kind === 'to' ? open.step : 0), 1);
}

/**
 * How high is each step? Every step has the same height unless it needs several lines of slabs (`lines`, by step);
 * when a product has so many steps that the drawing would be taller than 900 px, steps without a part shrink.
 */
export function stepScale(parts: readonly DepthPart[], lines: ReadonlyMap<number, number>): StepScale {
  const deepest = deepestStep(parts);
  const plain = Math.max(1, Math.min(stepHeight, tallestDrawing / deepest));
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
