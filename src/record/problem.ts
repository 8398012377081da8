/** One step of an id path: a key, or the index of a list item. */
export type PathSegment = string | number;

/** Must the record be changed before it is used, or is it merely worth a look? */
export type Severity = 'error' | 'warning';

/** What sort of fault is it? A closed list; the docs and the tests go by it. */
export type ProblemKind =
  | 'limit'
  | 'encoding'
  | 'syntax'
  | 'duplicate-key'
  | 'reserved-key'
  | 'unknown-field'
  | 'missing-field'
  | 'type'
  | 'value'
  | 'quantity'
  | 'dimension'
  | 'unknown-reference'
  | 'clash'
  | 'cycle'
  | 'order'
  | 'contradiction'
  | 'log'
  | 'suspicious';

/** A fault of the record that knows its id path, but not yet its place in the file. */
export interface UnplacedProblem {
  readonly path: readonly PathSegment[];
  /** Does the position point at the value, or at the key that names it? */
  readonly at: 'key' | 'value';
  /** The offending value; `undefined` when something is missing. */
  readonly value: unknown;
  /** What is wrong, as a sentence without place and value. */
  readonly message: string;
  /** What to do, as an imperative sentence. */
  readonly remedy: string;
  readonly kind: ProblemKind;
  readonly severity: Severity;
}

/** A fault of the record, with its place: file, line and column (both from 1) and id path (`sessions/x1/entries/e5/at`). */
export interface Problem {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly path: string;
  /** The offending value as JSON in one line, cut when long; absent when something is missing. */
  readonly value?: string;
  readonly message: string;
  readonly remedy: string;
  readonly kind: ProblemKind;
  readonly severity: Severity;
}

/** What a check says of a value; kind `contradiction`, severity `error` and pointing at the value unless said. */
export interface ProblemWords {
  readonly message: string;
  readonly remedy: string;
  readonly value?: unknown;
  readonly kind?: ProblemKind;
  readonly severity?: Severity;
  readonly at?: 'key' | 'value';
}

/** How does a check report a fault at an id path? The reader finds line and column. */
export const problemAt = (path: readonly PathSegment[], words: ProblemWords): UnplacedProblem => ({
  path: [...path],
  at: words.at ?? 'value',
  value: words.value,
  message: words.message,
  remedy: words.remedy,
  kind: words.kind ?? 'contradiction',
  severity: words.severity ?? 'error',
});

/** How is an id path written? Segments joined by `/`; the whole record is the empty path. */
export const showPath = (path: readonly PathSegment[]): string => path.join('/');

/** Does the record need mending before it can be used? */
export const hasErrors = (problems: readonly { readonly severity: Severity }[]): boolean =>
  problems.some((problem) => problem.severity === 'error');
