import { fittedText, textWidth } from '../look/text-width.ts';
import type { DepthZone } from './depth-model.ts';

/** A mark beside a face's name: a part that lies elsewhere and can be reached from here too. */
export interface EntryMark {
  readonly id: string;
  /** Where its open wedge stands, and its words, from the left [px]. */
  readonly wedge: number;
  readonly across: number;
  readonly label: string;
}

const size = 11.5;
const wedgeWidth = 9;
const gap = 16;

/** Where do the marks of a face stand in a line `width` wide, after its name [px]? Those that find no room are told as a number. */
export function entryMarks({ name, marks = [] }: DepthZone, width: number): readonly EntryMark[] {
  let across = textWidth(name, size, 'regular') + gap;
  const placed: EntryMark[] = [];
  for (const [index, { id, name: part }] of marks.entries()) {
    const rest = marks.length - index;
    const label = fittedText(part, 150, (text) => textWidth(text, size, 'regular'));
    const wide = wedgeWidth + textWidth(label, size, 'regular');
    const more = `${rest} more`;
    const room = width - across - (rest > 1 ? gap + wedgeWidth + textWidth(more, size, 'regular') : 0);
    if (wide > room) {
      placed.push({ id: `${id} and more`, wedge: across, across: across + wedgeWidth, label: more });
      return placed;
    }
    placed.push({ id, wedge: across, across: across + wedgeWidth, label });
    across += wide + gap;
  }
  return placed;
}

/** An open wedge that points into the product, its top left corner at a place [px], as a path. */
export function wedgePath(left: number, top: number, points: 'down' | 'up' | 'right'): string {
  if (points === 'right') return `M${left} ${top}l6 3.5l-6 3.5z`;
  return points === 'down' ? `M${left} ${top}h7l-3.5 6z` : `M${left} ${top + 6}h7l-3.5 -6z`;
}
