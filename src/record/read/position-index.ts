import type { PathSegment } from '../problem.ts';

/** A path whose place in the text is wanted. Offsets are filled in by the parser as it passes [UTF-16 units]. */
export interface WantedNode {
  readonly below: Map<string, WantedNode>;
  key: number;
  value: number;
}

/** Nothing wanted yet below this point; offsets below zero are not known. */
export const wantedNode = (): WantedNode => ({ below: new Map(), key: -1, value: -1 });

/** Which paths shall a parser note the places of? A tree, so that the parser walks it along with the text. */
export const wantedTree = (paths: Iterable<readonly PathSegment[]>): WantedNode => {
  const root = wantedNode();
  for (const path of paths) {
    let node = root;
    for (const segment of path) {
      const key = String(segment);
      let next = node.below.get(key);
      if (!next) {
        next = wantedNode();
        node.below.set(key, next);
      }
      node = next;
    }
  }
  return root;
};

/**
 * Where does a path stand in the text? Its key or its value; where it does not stand there (a missing field, an empty
 * value), the nearest thing above that does. Result: offset [UTF-16 units], 0 at worst.
 */
export const offsetOf = (root: WantedNode, path: readonly PathSegment[], at: 'key' | 'value'): number => {
  let node: WantedNode | undefined = root;
  let best = Math.max(root.value, 0);
  for (const [index, segment] of path.entries()) {
    node = node.below.get(String(segment));
    if (!node || (node.key < 0 && node.value < 0)) return best;
    const last = index === path.length - 1;
    const first = last && at === 'value' ? node.value : node.key;
    best = first >= 0 ? first : Math.max(node.key, node.value);
  }
  return best;
};

/** Line and column of an offset, both from 1; columns count UTF-16 units. */
export interface LineColumn {
  readonly line: number;
  readonly column: number;
}

/** Where does a text end, as a place that can be pointed at? Its last character, a line end of two counting as one. */
export const lastOffset = (text: string): number => Math.max(text.length - (text.endsWith('\r\n') ? 2 : 1), 0);

/** Where do the lines of a text begin? A line ends with LF, CR LF or CR, as in YAML 1.2. */
export const lineStarts = (text: string): Int32Array => {
  let starts = new Int32Array(1024);
  let count = 1;
  for (let offset = nextBreak(text, 0); offset >= 0; offset = nextBreak(text, offset)) {
    if (count === starts.length) {
      const grown = new Int32Array(starts.length * 2);
      grown.set(starts);
      starts = grown;
    }
    starts[count] = offset;
    count += 1;
  }
  return starts.subarray(0, count);
};

const nextBreak = (text: string, from: number): number => {
  for (let offset = from; offset < text.length; offset += 1) {
    const code = text.charCodeAt(offset);
    if (code === 10 || (code === 13 && text.charCodeAt(offset + 1) !== 10)) return offset + 1;
  }
  return -1;
};

/** On which line and in which column does an offset lie? */
export const lineColumnOf = (starts: Int32Array, offset: number): LineColumn => {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return { line: low + 1, column: offset - (starts[low] ?? 0) + 1 };
};
