/** An upright rectangle [px]; `right` and `bottom` are the first pixel outside. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Do two boxes come closer than a margin [px]? Touching at the margin is allowed. */
export function collide(a: Box, b: Box, margin: { readonly across: number; readonly down: number }): boolean {
  return (
    a.left < b.right + margin.across &&
    b.left < a.right + margin.across &&
    a.top < b.bottom + margin.down &&
    b.top < a.bottom + margin.down
  );
}

/** Where is a box after it has moved to the right [px]? */
export function moved(box: Box, across: number): Box {
  return { ...box, left: box.left + across, right: box.right + across };
}

/** How far right do boxes reach [px]? 0 for none. */
export function rightmost(boxes: readonly Box[]): number {
  return boxes.reduce((right, box) => Math.max(right, box.right), 0);
}
