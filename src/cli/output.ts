/** Where a command's words go: the result to `out`, everything said on the way to `err`. */
export interface Streams {
  readonly out: WritableText;
  readonly err: WritableText;
  readonly environment: Readonly<Record<string, string | undefined>>;
}

/** The part of a writable stream that commands need; a test passes an object that collects. */
export interface WritableText {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
}

/** The two manners in which text is set off. Meaning never hangs on them. */
export type Emphasis = 'bold' | 'dim';

/** How does a command say things? Text and JSON to standard output, notes to standard error; only the data of a file as it stands. */
export interface Output {
  /** Writes text as it stands. */
  write(text: string): void;
  /** Writes text and a line end. What a hostile file could steer a terminal with is written as `?`, here and in notes. */
  line(text?: string): void;
  /** Writes one value as JSON with two-space indentation and a line end. */
  json(value: unknown): void;
  /** Writes a line to standard error. */
  note(text: string): void;
  /** Sets text off on a terminal; returns it unchanged elsewhere and under NO_COLOR. */
  emphasise(text: string, emphasis: Emphasis): string;
  /** Columns of the terminal, 100 where there is none. */
  readonly width: number;
}

const codes: Readonly<Record<Emphasis, readonly [number, number]>> = { bold: [1, 22], dim: [2, 22] };
const widthWithoutTerminal = 100;

/** May this stream carry escape sequences? Only a terminal that is not dumb, and never under NO_COLOR (no-color.org). */
export function mayEmphasise(stream: WritableText, environment: Streams['environment']): boolean {
  const refused = (environment.NO_COLOR ?? '') !== '' || environment.TERM === 'dumb';
  return stream.isTTY === true && !refused;
}

/** How do commands write to these streams? */
export function createOutput({ out, err, environment }: Streams): Output {
  const emphasised = mayEmphasise(out, environment);
  return {
    write: (text) => void out.write(text),
    line: (text = '') => void out.write(`${printable(text)}\n`),
    json: (value) => void out.write(`${JSON.stringify(value, undefined, 2)}\n`),
    note: (text) => void err.write(`${printable(text)}\n`),
    emphasise: (text, emphasis) => {
      const [on, off] = codes[emphasis];
      return emphasised ? `\u001b[${on}m${text}\u001b[${off}m` : text;
    },
    width: out.columns ?? widthWithoutTerminal,
  };
}

/**
 * Which text can be shown without steering the terminal? Control characters and turned writing directions are taken out; tabs, line
 * ends and the sequences that set text off stay.
 */
const printable = (text: string): string => text.replaceAll(STEERING, (found) => (found.length > 1 ? found : '?'));

const STEERING =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that are taken out
  /\u001b\[(?:1|2|22)m|[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;
