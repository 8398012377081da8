import type { PathSegment, ProblemKind } from '../problem.ts';
import { RESERVED_WORDS } from '../schema/basics.ts';

/** A fault of the text itself, found while parsing: its offset is known at once [UTF-16 units]. */
export interface SourceProblem {
  readonly offset: number;
  readonly path: readonly PathSegment[];
  readonly value: unknown;
  readonly message: string;
  readonly remedy: string;
  readonly kind: ProblemKind;
}

/** What does parsing a text give? The data, where any could be made out, and every fault of the text. */
export interface ParsedText {
  readonly data: unknown;
  readonly problems: readonly SourceProblem[];
  /** False when the text broke off or went over a limit, so that data says nothing of the whole. */
  readonly complete: boolean;
}

/** Thrown inside a parser to end the parse: the problem is already in its list. */
export class ParseStop extends Error {}

/** Which words can be no key at all? */
export const reservedKeys: ReadonlySet<string> = new Set(RESERVED_WORDS);

/** How is a reserved key refused? */
export const reservedKeyWords = (key: string) => ({
  value: key,
  message: `"${key}" is a reserved word and cannot be a field or an id`,
  remedy: 'Choose another id.',
  kind: 'reserved-key' as const,
});

/** How is a key that occurs twice refused? */
export const duplicateKeyWords = (key: string) => ({
  value: key,
  message: `"${key}" is given twice in the same map`,
  remedy: 'Keep one of the two, or give one of them another id.',
  kind: 'duplicate-key' as const,
});
