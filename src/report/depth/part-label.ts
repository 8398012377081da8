import { fittedText, textWidth } from '../look/text-width.ts';
import type { DepthPart } from './depth-model.ts';

/** Size of the text in a slab [px]. */
export const labelSize = 12.5;
const slabPadding = 5;
const figureSpace = 6;

/** The words in a slab, and how wide they are with the space around them [px]. */
export interface PartLabel {
  readonly label: string;
  readonly figure: string;
  readonly width: number;
}

/** What stands in the slab of a part that may be no wider than `limit` [px]? The name, cut if it must be, and its steps. */
export function partLabel(part: DepthPart, limit: number): PartLabel {
  const figure = figureOf(part);
  const weight = part.heavy ? 'bold' : 'regular';
  const measure = (text: string) => textWidth(text, labelSize, weight);
  const figureWidth = textWidth(figure, labelSize, 'bold');
  const oneLine = part.name.replace(/\s+/g, ' ').trim();
  const label = fittedText(oneLine, Math.max(20, limit - figureWidth - figureSpace - 2 * slabPadding), measure);
  return { label, figure, width: Math.ceil(measure(label) + figureSpace + figureWidth + 2 * slabPadding) };
}

function figureOf({ step, open }: DepthPart): string {
  if (open.kind === 'endless') return `${step}+`;
  return open.kind === 'to' ? `${step}–${open.step}` : String(step);
}
