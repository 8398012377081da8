/** Text of a record keeps its own writing direction to itself: first-strong isolate, U+2068 … U+2069. */
export function isolated(text: string): string {
  return `\u2068${text}\u2069`;
}

/** How does a coordinate read? Tenths of a pixel. */
export function fixed(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/** How does a break line read as relative path commands, as drawings end what goes on? */
export function zigzag({ length, teeth, along }: { length: number; teeth: number; along: 'across' | 'down' }): string {
  const step = fixed(length / (2 * teeth));
  return Array.from({ length: 2 * teeth }, (_, index) => {
    const swing = index % 2 === 0 ? 4 : -4;
    return along === 'across' ? `l${step} ${swing}` : `l${swing} ${step}`;
  }).join('');
}
