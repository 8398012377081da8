/** Whose move is it? The person's data, our bug, a question too large to prove, or a command used wrongly. */
export type ErrorFamily = 'your-data' | 'our-bug' | 'too-large' | 'used-wrongly';

/** Where, with which value, and what to do about it: what every message of ours says besides what went wrong. */
export interface ErrorDetails {
  /** Path in the document (`fasteners.f3.count`), `file:line:column`, or the option's name. */
  readonly where: string;
  /** The offending value as the person wrote it; `undefined` when something is missing. */
  readonly value: unknown;
  /** What to do next, as an imperative sentence. */
  readonly remedy: string;
}

/** What a search that ran out of its limit still knows: its best answer and the bound under it, in one unit. */
export interface BestKnown {
  readonly best: number | undefined;
  readonly bound: number;
  /** Unit of both figures, for instance `s` or `steps`. */
  readonly unit: string;
}

/** Typed details by kind of error. The union of its keys is closed: a new kind is added here and nowhere else. */
export interface DetailsByKind {
  /** A fact of the assessment record is malformed, dangling or contradictory. */
  readonly record: ErrorDetails;
  /** A text that should be a quantity is none, or has another dimension. */
  readonly quantity: ErrorDetails;
  /** A route problem file breaks the neutral format. */
  readonly 'route-problem': ErrorDetails;
  /** A file or folder is absent, unreadable, wrongly encoded or over the stated size limit. */
  readonly file: ErrorDetails;
  /** The product is not covered by the scheme; `article` is the clause that says so. */
  readonly 'out-of-scope': ErrorDetails & { readonly article: string };
  /** A command, option or argument does not exist or does not fit. */
  readonly usage: ErrorDetails;
  /** The search met its limit before a proof. */
  readonly 'too-large': ErrorDetails & BestKnown;
  /** A condition that the code relies on does not hold. */
  readonly bug: ErrorDetails;
}

/** The closed union of error kinds. */
export type ErrorKind = keyof DetailsByKind;

const familyByKind: Readonly<Record<ErrorKind, ErrorFamily>> = {
  record: 'your-data',
  quantity: 'your-data',
  'route-problem': 'your-data',
  file: 'your-data',
  'out-of-scope': 'your-data',
  usage: 'used-wrongly',
  'too-large': 'too-large',
  bug: 'our-bug',
};

/**
 * What went wrong, where, with which value, and what to do? The one base class of every error thrown on purpose; thrown
 * inside, converted once at the edge (command line, server). `what` is a sentence without the place and the value.
 */
export class UnfastenError<K extends ErrorKind = ErrorKind> extends Error {
  override readonly name = 'UnfastenError';
  readonly kind: K;
  readonly details: DetailsByKind[K];

  constructor(kind: K, what: string, details: DetailsByKind[K]) {
    super(what);
    this.kind = kind;
    this.details = details;
  }

  /** Whose move is it? */
  get family(): ErrorFamily {
    return familyByKind[this.kind];
  }
}

/** Is this an error of ours, and of that kind if one is named? Narrows the details' type. */
export function isUnfastenError<K extends ErrorKind>(error: unknown, kind?: K): error is UnfastenError<K> {
  return error instanceof UnfastenError && (kind === undefined || error.kind === kind);
}

const shownLength = 120;

/** How is an offending value shown in a message? As JSON in one line, cut at 120 characters; missing says so. */
export function showValue(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'bigint' || typeof value === 'number') return String(value);
  let text: string | undefined;
  try {
    text = JSON.stringify(value);
  } catch {
    text = undefined;
  }
  const shown = text ?? String(value);
  return shown.length > shownLength ? `${shown.slice(0, shownLength)}… (${shown.length} characters)` : shown;
}

/** How does an error read in one line? `where: what (found value). remedy`. */
export function describeError(error: UnfastenError): string {
  const { where, value, remedy } = error.details;
  return `${where}: ${error.message} (found ${showValue(value)}). ${remedy}`;
}

/**
 * Does a condition hold that the code relies on? Throws an `UnfastenError` of kind `bug` when it does not, so that a
 * broken assumption never turns into a wrong figure.
 */
export function invariant(condition: boolean, what: string, where: string): asserts condition {
  if (condition) return;
  throw new UnfastenError('bug', what, {
    where,
    value: undefined,
    remedy: 'Please report it with the record at hand.',
  });
}
