import { limitWords } from '../limit-words.ts';
import { limits } from '../limits.ts';
import type { PathSegment, ProblemKind } from '../problem.ts';
import { lastOffset, lineColumnOf, lineStarts } from './position-index.ts';
import { ParseStop, type SourceProblem } from './source-problem.ts';

/** The tokens of JSON text: blanks, strings, numbers and words, with every fault noted where it stands. */
export class JsonScanner {
  readonly text: string;
  readonly problems: SourceProblem[] = [];
  readonly path: PathSegment[] = [];
  /** Offsets of the brackets that are open, the innermost last [UTF-16 units]. */
  readonly opened: number[] = [];
  /** Offset of the next character [UTF-16 units]. */
  at = 0;

  constructor(text: string) {
    this.text = text;
  }

  /** Notes a fault and goes on; past the limit on problems it ends the parse. */
  report(offset: number, words: Omit<SourceProblem, 'offset' | 'path'>): void {
    this.problems.push({ offset, path: [...this.path], ...words });
    if (this.problems.length < limits.problems) return;
    this.problems.push({ offset, path: [...this.path], ...limitWords('problems') });
    throw new ParseStop();
  }

  /** Notes a fault after which the structure cannot be made out, and ends the parse. */
  stop(message: string, remedy: string, kind: ProblemKind = 'syntax'): never {
    if (this.at >= this.text.length) this.stopAtEnd();
    this.report(this.at, { value: this.text.slice(this.at, this.at + 20), message, remedy, kind });
    throw new ParseStop();
  }

  /** JSON has no single quotes: what they enclose cannot be told from what follows, so the parse ends. */
  stopAtSingleQuote(): never {
    return this.stop(
      'JSON has no single quotes',
      'Put field names and texts in double quotes, or keep the record as assessment.yaml, where single quotes are allowed.',
    );
  }

  /** The text ends too early: which bracket is not closed, and where was it opened? */
  private stopAtEnd(): never {
    const open = this.opened.at(-1);
    const { value, message, remedy } = open === undefined ? NO_RECORD : unclosedBracket(this.text, open);
    this.report(Math.min(this.at, lastOffset(this.text)), { value, message, remedy, kind: 'syntax' });
    throw new ParseStop();
  }

  /** Passes blanks; comments are no JSON, and are reported and passed. */
  skip(): void {
    for (;;) {
      const code = this.text.charCodeAt(this.at);
      if (code === 0x20 || code === 0x0a || code === 0x0d || code === 0x09) this.at += 1;
      else if (code === 0x2f) this.comment();
      else return;
    }
  }

  /** Can a value or a field name begin with this character? */
  startsValue(code: number): boolean {
    return code === 0x22 || code === 0x7b || code === 0x5b || code === 0x2d || isDigit(code) || isLetter(code);
  }

  private comment(): void {
    const second = this.text.charCodeAt(this.at + 1);
    if (second !== 0x2f && second !== 0x2a) this.stop('a value is expected here', 'Remove the slash.');
    const end = second === 0x2f ? '\n' : '*/';
    this.report(this.at, {
      value: this.text.slice(this.at, this.at + 20),
      message: 'JSON has no comments',
      remedy: 'Remove the comment, or keep the record as assessment.yaml, where comments are kept.',
      kind: 'syntax',
    });
    const found = this.text.indexOf(end, this.at + 2);
    this.at = found < 0 ? this.text.length : found + end.length;
  }

  /** Reads a string; the opening quote is the next character. */
  string(): string {
    const start = this.at + 1;
    let end = start;
    for (;;) {
      const code = this.text.charCodeAt(end);
      if (code === 0x22) break;
      if (code === 0x5c) return this.escapedString(start, end);
      if (code < 0x20 || Number.isNaN(code)) this.unclosed(end);
      end += 1;
    }
    this.at = end + 1;
    if (end - start > limits.textCharacters) this.tooLong(start - 1);
    return this.text.slice(start, end);
  }

  private unclosed(end: number): never {
    this.report(this.at, {
      value: this.text.slice(this.at, Math.min(end, this.at + 40)),
      message: 'the text is not closed on its line',
      remedy: 'Close it with a double quote; write a line break as \\n and a tab as \\t.',
      kind: 'syntax',
    });
    this.at = end;
    if (end >= this.text.length) this.stopAtEnd();
    throw new ParseStop();
  }

  private tooLong(offset: number): never {
    this.report(offset, limitWords('textCharacters'));
    throw new ParseStop();
  }

  private escapedString(start: number, firstEscape: number): string {
    let end = firstEscape;
    for (;;) {
      const code = this.text.charCodeAt(end);
      if (code === 0x22) break;
      if (code < 0x20 || Number.isNaN(code)) this.unclosed(end);
      end += code === 0x5c ? 2 : 1;
    }
    this.at = end + 1;
    if (end - start > limits.textCharacters) this.tooLong(start - 1);
    return this.unescape(start - 1, this.text.slice(start, end));
  }

  private unescape(offset: number, raw: string): string {
    let faulty: string | undefined;
    const plain = raw.replace(/\\(u[0-9a-fA-F]{4}|[^u]|u)/g, (whole, after: string) => {
      if (after.length === 5) return String.fromCharCode(Number.parseInt(after.slice(1), 16));
      const character = ESCAPES[after];
      if (character === undefined) faulty ??= whole;
      return character ?? '';
    });
    if (faulty !== undefined) this.report(offset, badEscape(faulty));
    else if (hasLoneSurrogate(plain)) this.report(offset, badEscape('half of a surrogate pair'));
    return plain;
  }

  /** Reads a number or one of the three words; what is neither is reported, and read over when it is one word. */
  literal(): unknown {
    TOKEN.lastIndex = this.at;
    const token = TOKEN.exec(this.text)?.[0];
    if (token === undefined)
      this.stop('a value is expected here', 'Write a text in double quotes, a number, true, false, {…} or […].');
    const start = this.at;
    this.at += token.length;
    const word = WORDS[token];
    if (word !== undefined && Object.hasOwn(WORDS, token)) return word;
    if (NUMBER.test(token)) {
      const number = Number(token);
      if (Number.isFinite(number)) return number;
      this.report(start, notFinite(token));
      return undefined;
    }
    this.report(start, NOT_FINITE.test(token) ? notFinite(token) : notJson(token));
    return undefined;
  }
}

const TOKEN = /[-+.\w$]+/y;
const NUMBER = /^-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?$/;
const NOT_FINITE = /^[-+]?(?:nan|inf(?:inity)?)$/i;
const WORDS: Readonly<Record<string, unknown>> = { true: true, false: false, null: null };
const ESCAPES: Readonly<Record<string, string>> = {
  '"': '"',
  '\\': '\\',
  '/': '/',
  b: '\b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
};

const isDigit = (code: number): boolean => code >= 0x30 && code <= 0x39;
const isLetter = (code: number): boolean => (code >= 0x41 && code <= 0x5a) || (code >= 0x61 && code <= 0x7a);

/** Does a text hold half of a surrogate pair, which no UTF-8 file can keep? */
export const hasLoneSurrogate = (text: string): boolean => /\p{Surrogate}/u.test(text);

/** How is a number refused that is none, or beyond what can be computed with? */
export const notFinite = (token: string) => ({
  value: token,
  message: 'a figure of a record is a finite number',
  remedy: 'Leave the field out when the figure is not known.',
  kind: 'value' as const,
});

const NO_RECORD = {
  value: undefined,
  message: 'the text ends before the record begins',
  remedy: 'Write the record between { and }.',
};

const unclosedBracket = (text: string, at: number) => {
  const { line, column } = lineColumnOf(lineStarts(text), at);
  const bracket = text.charAt(at);
  return {
    value: undefined,
    message: `the text ends in the middle of the record: the ${bracket} opened at ${line}:${column} is not closed`,
    remedy: `Close it with ${bracket === '{' ? '}' : ']'}, or fetch the file again if it was cut off.`,
  };
};

const notJson = (token: string) => ({
  value: token.slice(0, 40),
  message: 'this is no JSON value',
  remedy: 'Put a text in double quotes; write numbers like 12, -0.5 or 1e3.',
  kind: 'syntax' as const,
});

const badEscape = (what: string) => ({
  value: what,
  message: 'the text holds an escape that JSON does not know',
  remedy: 'Write a backslash as \\\\.',
  kind: 'syntax' as const,
});
