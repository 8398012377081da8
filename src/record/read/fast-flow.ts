import { limits } from '../limits.ts';
import { LookCloser } from './look-closer.ts';
import { reservedKeys } from './source-problem.ts';
import { NOT_A_NUMBER, plainScalar } from './yaml-scalar.ts';

const BLANK = 0x20;
const QUOTE = 0x22;
const HASH = 0x23;
const APOSTROPHE = 0x27;
const COMMA = 0x2c;
const COLON = 0x3a;
const OPEN_LIST = 0x5b;
const BACKSLASH = 0x5c;
const CLOSE_LIST = 0x5d;
const OPEN_MAP = 0x7b;
const CLOSE_MAP = 0x7d;

/** Characters a plain scalar of the plain manner does not begin with: indicators of YAML 1.2.2, section 5.3, and blanks. */
const NO_START: ReadonlySet<number> = new Set(
  [...'!&*|>%@`?-:#,[]{}"\' \t'].map((character) => character.charCodeAt(0)),
);

/** Values on one line of YAML: scalars, flow maps and flow lists. Everything unusual is left to the full parser. */
export class FastFlow {
  protected readonly text: string;
  private nodes = 0;
  /** Where the value read last ended. */
  private at = 0;

  constructor(text: string) {
    this.text = text;
  }

  /** The colon behind a key that begins here, or below zero when the line has no key here. */
  protected colonAfterKey(start: number, end: number): number {
    const first = this.text.charCodeAt(start);
    if (first === QUOTE || first === APOSTROPHE) {
      const close = this.closingQuote(start, end);
      return this.isColon(close + 1, end) ? close + 1 : -1;
    }
    for (let at = start; at < end; at += 1) {
      const code = this.text.charCodeAt(at);
      if (code === COLON && this.isColon(at, end)) return at;
      if (code === HASH && this.text.charCodeAt(at - 1) <= BLANK) return -1;
      if (at === start && (code === OPEN_LIST || code === OPEN_MAP)) return -1;
    }
    return -1;
  }

  private isColon(at: number, end: number): boolean {
    return this.text.charCodeAt(at) === COLON && (at + 1 >= end || this.text.charCodeAt(at + 1) === BLANK);
  }

  /** A key as it stands in the text. */
  protected key(start: number, colon: number): string {
    this.count();
    if (colon - start > LONGEST_KEY) throw new LookCloser();
    const first = this.text.charCodeAt(start);
    if (first === QUOTE || first === APOSTROPHE) return this.text.slice(start + 1, colon - 1);
    const key = this.text.slice(start, colon);
    if (NO_START.has(first) || key.endsWith(' ') || !PLAIN_KEY.test(key)) throw new LookCloser();
    return key;
  }

  /** The value that begins at `start` and fills the line but for a comment. */
  protected valueOnLine(start: number, end: number): unknown {
    const first = this.text.charCodeAt(start);
    const bracketed = first === OPEN_LIST || first === OPEN_MAP;
    if (!bracketed && first !== QUOTE && first !== APOSTROPHE) return this.plainOnLine(start, end);
    const value = bracketed ? this.flow(start, end, 0) : this.quoted(start, end);
    let at = this.at;
    while (at < end && this.text.charCodeAt(at) === BLANK) at += 1;
    if (at < end && (this.text.charCodeAt(at) !== HASH || at === this.at)) throw new LookCloser();
    return value;
  }

  private plainOnLine(start: number, end: number): unknown {
    let stop = start;
    for (; stop < end; stop += 1) {
      const code = this.text.charCodeAt(stop);
      if (code === COLON && this.isColon(stop, end)) throw new LookCloser();
      if (code === HASH && this.text.charCodeAt(stop - 1) <= BLANK) break;
      if (code < BLANK) throw new LookCloser();
    }
    while (stop > start && this.text.charCodeAt(stop - 1) === BLANK) stop -= 1;
    return this.plain(start, stop);
  }

  private plain(start: number, stop: number): unknown {
    this.count();
    if (stop - start > limits.textCharacters) throw new LookCloser();
    const first = this.text.charCodeAt(start);
    const number = first === 0x2d && isDigitOrPoint(this.text.charCodeAt(start + 1));
    if (NO_START.has(first) && !number) throw new LookCloser();
    const value = plainScalar(this.text.slice(start, stop));
    if (value === NOT_A_NUMBER) throw new LookCloser();
    return value;
  }

  private quoted(start: number, end: number): string {
    this.count();
    const close = this.closingQuote(start, end);
    this.at = close + 1;
    return this.text.slice(start + 1, close);
  }

  /** The quote that closes on the same line; escapes and doubled quotes are left to the full parser. */
  private closingQuote(start: number, end: number): number {
    const quote = this.text.charCodeAt(start);
    for (let at = start + 1; at < end; at += 1) {
      const code = this.text.charCodeAt(at);
      if (code === BACKSLASH && quote === QUOTE) break;
      if (code < BLANK || at - start > limits.textCharacters) break;
      if (code !== quote) continue;
      if (this.text.charCodeAt(at + 1) === quote) break;
      return at;
    }
    throw new LookCloser();
  }

  private flow(start: number, end: number, depth: number): unknown {
    this.count();
    if (depth > FLOW_DEPTH) throw new LookCloser();
    const isMap = this.text.charCodeAt(start) === OPEN_MAP;
    const close = isMap ? CLOSE_MAP : CLOSE_LIST;
    const list: unknown[] = [];
    const map: Record<string, unknown> = {};
    this.at = this.passBlanks(start + 1, end);
    for (let items = 0; this.text.charCodeAt(this.at) !== close; items += 1) {
      if (items >= limits.listItems) throw new LookCloser();
      if (isMap) this.flowPair(map, end, depth);
      else list.push(this.flowValue(this.at, end, depth));
      this.at = this.passBlanks(this.at, end);
      const code = this.text.charCodeAt(this.at);
      if (code === COMMA) this.at = this.passBlanks(this.at + 1, end);
      else if (code !== close) throw new LookCloser();
    }
    this.at += 1;
    return isMap ? map : list;
  }

  private flowPair(map: Record<string, unknown>, end: number, depth: number): void {
    const start = this.at;
    const first = this.text.charCodeAt(start);
    const isQuoted = first === QUOTE || first === APOSTROPHE;
    const colon = isQuoted ? this.closingQuote(start, end) + 1 : this.text.indexOf(':', start);
    if (colon < 0 || colon >= end || this.text.charCodeAt(colon) !== COLON) throw new LookCloser();
    if (this.text.charCodeAt(colon + 1) !== BLANK) throw new LookCloser();
    const key = this.key(start, colon);
    if (reservedKeys.has(key) || Object.hasOwn(map, key)) throw new LookCloser();
    map[key] = this.flowValue(this.passBlanks(colon + 1, end), end, depth);
  }

  private flowValue(start: number, end: number, depth: number): unknown {
    const first = this.text.charCodeAt(start);
    if (first === OPEN_LIST || first === OPEN_MAP) return this.flow(start, end, depth + 1);
    if (first === QUOTE || first === APOSTROPHE) return this.quoted(start, end);
    let stop = start;
    for (; stop < end; stop += 1) {
      const code = this.text.charCodeAt(stop);
      if (code === COMMA || code === CLOSE_LIST || code === CLOSE_MAP) break;
      if (code === COLON && !isWordCharacter(this.text.charCodeAt(stop + 1))) throw new LookCloser();
      if (code === HASH || code < BLANK || code === OPEN_LIST || code === OPEN_MAP) throw new LookCloser();
    }
    if (stop === start || stop >= end) throw new LookCloser();
    this.at = stop;
    while (this.text.charCodeAt(stop - 1) === BLANK) stop -= 1;
    return this.plain(start, stop);
  }

  private passBlanks(from: number, end: number): number {
    let at = from;
    while (at < end && this.text.charCodeAt(at) === BLANK) at += 1;
    if (at >= end) throw new LookCloser();
    return at;
  }

  private count(): void {
    this.nodes += 1;
    if (this.nodes > limits.nodes) throw new LookCloser();
  }
}

/** Flow collections inside each other in the plain manner; deeper ones, and their place under the block, are counted there. */
const FLOW_DEPTH = 8;
const PLAIN_KEY = /^\w[\w .+/-]*$/;
/** An implicit key has at most 1,024 characters (YAML 1.2.2, section 7.4). */
const LONGEST_KEY = 1_000;
const isDigitOrPoint = (code: number): boolean => (code >= 0x30 && code <= 0x39) || code === 0x2e;
const isWordCharacter = (code: number): boolean =>
  (code >= 0x30 && code <= 0x39) || (code >= 0x41 && code <= 0x5a) || (code >= 0x61 && code <= 0x7a);
