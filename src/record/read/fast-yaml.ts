import { limits } from '../limits.ts';
import { FastFlow } from './fast-flow.ts';
import { LookCloser } from './look-closer.ts';
import { reservedKeys } from './source-problem.ts';

/**
 * The data of a YAML text in the plain manner records are written in, or `undefined` where anything else stands in it and
 * `parseYaml` has to look closer: block maps and lists by indentation, flow maps and lists on one line, scalars on one line,
 * comments. No anchors, tags, block scalars, escapes or continued lines, and no fault at all. Several times faster than the
 * full parser, and without its list of events.
 */
export const fastYaml = (text: string): { readonly data: unknown } | undefined => {
  if (UNUSUAL.test(text)) return undefined;
  const reader = new FastYaml(text);
  try {
    return { data: reader.document() };
  } catch (error) {
    if (error instanceof LookCloser) return undefined;
    throw error;
  }
};

/** Tabs, line ends of other kinds, and characters that the full parser may refuse or take for line ends. */
const UNUSUAL = /\t|\r(?!\n)|[\u0080-\u009f\u2028\u2029\ufeff\ufffe\uffff]/;

/** Blocks inside each other in the plain manner; flow collections may add as many as they may have. */
const BLOCK_DEPTH = 20;

/** One line of the text that is neither blank nor a comment. */
interface Line {
  readonly indent: number;
  readonly start: number;
  readonly end: number;
}

const NOTHING: Line = { indent: -1, start: 0, end: 0 };

class FastYaml extends FastFlow {
  private next = 0;
  private line: Line = NOTHING;
  private depth = 0;

  document(): unknown {
    this.advance();
    if (this.line.indent !== 0) throw new LookCloser();
    const data = this.block(0);
    if (this.line !== NOTHING) throw new LookCloser();
    return data;
  }

  /** Goes to the next line with something on it; blanks at its end are left out. */
  private advance(): void {
    while (this.next < this.text.length) {
      const start = this.next;
      const found = this.text.indexOf('\n', start);
      let end = found < 0 ? this.text.length : found;
      this.next = end + 1;
      let at = start;
      while (this.text.charCodeAt(at) === BLANK) at += 1;
      while (end > at && this.text.charCodeAt(end - 1) <= BLANK) end -= 1;
      const code = at < end ? this.text.charCodeAt(at) : HASH;
      if (code === HASH) continue;
      if (code < BLANK || code === PERCENT) throw new LookCloser();
      this.line = { indent: at - start, start: at, end };
      return;
    }
    this.line = NOTHING;
  }

  private block(indent: number): unknown {
    this.depth += 1;
    if (this.depth > BLOCK_DEPTH) throw new LookCloser();
    const dashed = this.startsItem(this.line.start);
    const value = dashed ? this.list(indent) : this.map(indent, {});
    this.depth -= 1;
    return value;
  }

  private startsItem(at: number): boolean {
    if (this.text.charCodeAt(at) !== DASH) return false;
    if (this.text.charCodeAt(at + 1) !== BLANK) throw new LookCloser();
    return true;
  }

  private list(indent: number): unknown[] {
    const list: unknown[] = [];
    while (this.line.indent === indent && this.text.charCodeAt(this.line.start) === DASH) {
      if (!this.startsItem(this.line.start) || list.length >= limits.listItems) throw new LookCloser();
      list.push(this.item());
    }
    if (this.line.indent > indent) throw new LookCloser();
    return list;
  }

  /** What stands behind a dash: a value on the line, or a map whose first field is on the line. */
  private item(): unknown {
    const { start, end, indent } = this.line;
    let at = start + 1;
    while (this.text.charCodeAt(at) === BLANK) at += 1;
    const dashed = this.text.charCodeAt(at) === DASH && this.startsListOrNumber(at);
    if (!dashed && this.colonAfterKey(at, end) < 0) return this.lineValue(at, indent);
    this.line = { indent: indent + at - start, start: at, end };
    return this.block(this.line.indent);
  }

  /** A dash behind a dash begins a list when a blank follows; else it is a sign. */
  private startsListOrNumber(at: number): boolean {
    return this.text.charCodeAt(at + 1) === BLANK && at + 1 < this.line.end;
  }

  private map(indent: number, map: Record<string, unknown>): Record<string, unknown> {
    let items = 0;
    while (this.line.indent === indent) {
      const { start, end } = this.line;
      const colon = this.colonAfterKey(start, end);
      if (colon < 0 || items >= limits.mapItems) throw new LookCloser();
      const key = this.key(start, colon);
      if (reservedKeys.has(key) || Object.hasOwn(map, key)) throw new LookCloser();
      map[key] = this.fieldValue(colon + 1, indent);
      items += 1;
    }
    if (this.line.indent > indent) throw new LookCloser();
    return map;
  }

  private fieldValue(from: number, indent: number): unknown {
    let at = from;
    while (this.text.charCodeAt(at) === BLANK && at < this.line.end) at += 1;
    if (at < this.line.end && this.text.charCodeAt(at) !== HASH) return this.lineValue(at, indent);
    this.advance();
    if (this.line.indent > indent) return this.block(this.line.indent);
    const dashed = this.line.indent === indent && this.text.charCodeAt(this.line.start) === DASH;
    return dashed ? this.block(indent) : null;
  }

  /** A value that begins and ends on this line; a deeper line after it would continue it. */
  private lineValue(at: number, indent: number): unknown {
    const value = this.valueOnLine(at, this.line.end);
    this.advance();
    if (this.line.indent > indent) throw new LookCloser();
    return value;
  }
}

const BLANK = 0x20;
const HASH = 0x23;
const PERCENT = 0x25;
const DASH = 0x2d;
