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

/** One fault of a change or a document, at its id path (`sessions/x1/entries/e5/at`; the whole is the empty path). */
export interface LocatedFault {
  readonly path: string;
  /** Line and column in the text, both from 1, where the document came as one. */
  readonly line?: number;
  readonly column?: number;
  readonly message: string;
  readonly value: unknown;
  readonly remedy: string;
}

/** A place that two people changed at once, with both versions; a member is missing where there was nothing. */
export interface Clash {
  /** JSON Pointer (RFC 6901) of the place. */
  readonly path: string;
  /** What stood there in the revision the change was made against. */
  readonly base?: unknown;
  /** What stands there now. */
  readonly head?: unknown;
  /** What the refused change wanted to stand there. */
  readonly wanted?: unknown;
}

/** Both sides of a refused change: where it clashes, and the revision that stands now. */
export interface ConflictDetails {
  readonly assessment: string;
  readonly headRevision: number;
  readonly clashes: readonly Clash[];
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
  /** A change or document that the ledger cannot take: no patch, too large, or against the record's shape. */
  readonly change: ErrorDetails & { readonly faults: readonly LocatedFault[] };
  /** A change was made against an older state, and its places were changed since. */
  readonly conflict: ErrorDetails & ConflictDetails;
  /** There is no assessment, revision or evidence of this name in the ledger. */
  readonly 'not-in-ledger': ErrorDetails;
  /** The ledger itself is not one, is damaged, is newer than the program, or its chain does not hold. */
  readonly ledger: ErrorDetails;
  /** The disk is full, may not be written, or fails; nothing was acknowledged. */
  readonly storage: ErrorDetails;
  /** Another process holds the data folder. */
  readonly 'in-use': ErrorDetails;
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
  change: 'your-data',
  conflict: 'your-data',
  'not-in-ledger': 'used-wrongly',
  ledger: 'your-data',
  storage: 'your-data',
  'in-use': 'used-wrongly',
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
