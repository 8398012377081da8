import { limitWords } from '../limit-words.ts';
import { limits } from '../limits.ts';
import { fastJson } from './fast-json.ts';
import { JsonScanner } from './json-scanner.ts';
import { type WantedNode, wantedNode } from './position-index.ts';
import { duplicateKeyWords, type ParsedText, ParseStop, reservedKeys, reservedKeyWords } from './source-problem.ts';

/**
 * Reads JSON text (RFC 8259) into plain data with every fault of the text. What people commonly write into JSON by hand
 * (comments, trailing commas, NaN) is reported and read over, so that the rest is checked too. Cost: linear.
 */
export const parseJson = (text: string): ParsedText => {
  const faultless = fastJson(text);
  return faultless ? { data: faultless.data, problems: [], complete: true } : parseJsonClosely(text);
};

/** Reads JSON text with the parser that knows places, whether or not it has faults; `wanted` receives its offsets. */
export const parseJsonClosely = (text: string, wanted: WantedNode = wantedNode()): ParsedText => {
  const parser = new JsonParser(text);
  try {
    parser.skip();
    const data = parser.value(wanted, 0);
    parser.skip();
    if (parser.at < text.length)
      parser.stop('there is more text after the end of the record', 'Remove what follows the last bracket.');
    return { data, problems: parser.problems, complete: true };
  } catch (error) {
    if (error instanceof ParseStop) return { data: undefined, problems: parser.problems, complete: false };
    throw error;
  }
};

const QUOTE = 0x22;
const APOSTROPHE = 0x27;
const COMMA = 0x2c;
const COLON = 0x3a;
const OPEN_LIST = 0x5b;
const CLOSE_LIST = 0x5d;
const OPEN_MAP = 0x7b;
const CLOSE_MAP = 0x7d;

class JsonParser extends JsonScanner {
  private nodes = 0;

  value(wanted: WantedNode | undefined, depth: number): unknown {
    if (wanted && wanted.value < 0) wanted.value = this.at;
    this.nodes += 1;
    if (this.nodes > limits.nodes) this.stopAtLimit('nodes');
    const code = this.text.charCodeAt(this.at);
    if (code === QUOTE) return this.string();
    if (code === APOSTROPHE) this.stopAtSingleQuote();
    if (code !== OPEN_MAP && code !== OPEN_LIST) return this.literal();
    if (depth >= limits.depth) this.stopAtLimit('depth');
    return code === OPEN_MAP ? this.map(wanted, depth) : this.list(wanted, depth);
  }

  private map(wanted: WantedNode | undefined, depth: number): Record<string, unknown> {
    const map: Record<string, unknown> = {};
    this.opened.push(this.at);
    this.at += 1;
    for (let items = 0; !this.closes(CLOSE_MAP, items === 0); items += 1) {
      if (items >= limits.mapItems) this.stopAtLimit('mapItems');
      this.pair(map, wanted, depth);
    }
    return map;
  }

  private pair(map: Record<string, unknown>, wanted: WantedNode | undefined, depth: number): void {
    const keyAt = this.at;
    if (this.text.charCodeAt(keyAt) === APOSTROPHE) this.stopAtSingleQuote();
    if (this.text.charCodeAt(keyAt) !== QUOTE)
      this.stop('a field name in double quotes is expected here', 'Put the field name in double quotes.');
    const key = this.string();
    this.path.push(key);
    const refused = reservedKeys.has(key) || Object.hasOwn(map, key);
    if (refused) this.report(keyAt, reservedKeys.has(key) ? reservedKeyWords(key) : duplicateKeyWords(key));
    this.skip();
    if (this.text.charCodeAt(this.at) !== COLON)
      this.stop('a colon is expected after the field name', 'Write a colon between the field name and its value.');
    this.at += 1;
    this.skip();
    const below = refused ? undefined : wanted?.below.get(key);
    if (below) below.key = keyAt;
    const value = this.value(below, depth + 1);
    if (!refused) map[key] = value;
    this.path.pop();
  }

  private list(wanted: WantedNode | undefined, depth: number): unknown[] {
    const list: unknown[] = [];
    this.opened.push(this.at);
    this.at += 1;
    while (!this.closes(CLOSE_LIST, list.length === 0)) {
      if (list.length >= limits.listItems) this.stopAtLimit('listItems');
      this.path.push(list.length);
      list.push(this.value(wanted?.below.get(String(list.length)), depth + 1));
      this.path.pop();
    }
    return list;
  }

  /** Passes the comma before the next item and says whether the collection ends here. */
  private closes(close: number, first: boolean): boolean {
    this.skip();
    const code = this.text.charCodeAt(this.at);
    if (code === close) {
      this.opened.pop();
      this.at += 1;
      return true;
    }
    if (first) return false;
    if (code === COMMA) return this.passComma(close);
    if (code === APOSTROPHE) this.stopAtSingleQuote();
    if (!this.startsValue(code))
      this.stop('a comma or the closing bracket is expected here', 'Close the brackets in the order they were opened.');
    this.report(this.at, { ...MISSING_COMMA, value: undefined });
    return false;
  }

  private passComma(close: number): boolean {
    const comma = this.at;
    this.at += 1;
    this.skip();
    if (this.text.charCodeAt(this.at) !== close) return false;
    this.report(comma, { ...TRAILING_COMMA, value: ',' });
    this.opened.pop();
    this.at += 1;
    return true;
  }

  private stopAtLimit(name: keyof typeof limits): never {
    this.report(this.at, limitWords(name));
    throw new ParseStop();
  }
}

const MISSING_COMMA = { message: 'a comma is missing here', remedy: 'Put a comma before it.', kind: 'syntax' } as const;
const TRAILING_COMMA = {
  message: 'JSON has no comma after the last item',
  remedy: 'Remove the comma.',
  kind: 'syntax',
} as const;
