/** Which of the two weights is the text set in? */
export type Weight = 'regular' | 'bold';

/**
 * Advance widths [1/1000 em] of U+0020 to U+007E, tabular figures, read from the two fonts in `font-data.ts`.
 */
const advances: Readonly<Record<Weight, readonly number[]>> = {
  regular: [
    280, 281, 301, 655, 594, 927, 705, 160, 300, 300, 433, 602, 205, 368, 205, 377, 639, 639, 639, 639, 639, 639, 639,
    639, 639, 639, 205, 205, 553, 602, 553, 520, 780, 626, 619, 656, 673, 567, 548, 710, 690, 414, 510, 627, 539, 820,
    689, 727, 601, 753, 618, 596, 558, 690, 589, 840, 623, 595, 607, 315, 377, 315, 552, 396, 268, 526, 566, 500, 564,
    539, 311, 560, 546, 278, 254, 490, 239, 841, 546, 552, 566, 576, 340, 471, 324, 536, 441, 654, 461, 429, 460, 319,
    233, 319, 555,
  ],
  bold: [
    320, 283, 410, 783, 619, 977, 702, 222, 366, 366, 434, 618, 243, 374, 243, 442, 632, 632, 632, 632, 632, 632, 632,
    632, 632, 632, 243, 243, 573, 618, 573, 614, 754, 690, 639, 673, 686, 580, 544, 719, 679, 458, 560, 659, 537, 842,
    700, 764, 626, 781, 654, 619, 617, 663, 656, 883, 699, 687, 621, 333, 442, 333, 589, 430, 314, 553, 596, 520, 596,
    566, 367, 597, 572, 315, 259, 567, 314, 886, 572, 573, 596, 601, 372, 534, 379, 570, 526, 723, 533, 518, 516, 370,
    234, 370, 533,
  ],
};
const firstCode = 0x20;
/** Wider than any Latin letter of the fonts, and than a full-width character of a system font. */
const unknownAdvance = 1_070;

/** How wide is a text [px] at a size [px]? Characters outside ASCII count as a full em and more: never too narrow. */
export function textWidth(text: string, size: number, weight: Weight): number {
  let sum = 0;
  for (const character of text) {
    sum += advances[weight][(character.codePointAt(0) ?? 0) - firstCode] ?? widthOutsideAscii(character);
  }
  return (sum * size) / 1_000;
}

function widthOutsideAscii(character: string): number {
  if (character === '–') return 508;
  if (character === '…') return 803;
  if (character === '·') return 301;
  return unknownAdvance;
}

/** How does a text read that must not be wider than a limit [px]? Cut with an ellipsis, never inside a surrogate pair. */
export function fittedText(text: string, limit: number, measure: (text: string) => number): string {
  if (measure(text) <= limit) return text;
  let kept = '';
  for (const character of text) {
    if (measure(`${kept}${character}…`) > limit) break;
    kept += character;
  }
  return `${kept.trimEnd()}…`;
}
