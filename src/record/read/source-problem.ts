import { limits } from '../limits.ts';
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

/** How is a size over a limit refused? By the limit's name and number. */
export const limitWords = (name: keyof typeof limits, value?: unknown) => ({
  value,
  message: `${limitTexts[name]} (limit ${name}: ${limits[name]})`,
  remedy: 'Split the record, or remove what does not belong to it.',
  kind: 'limit' as const,
});

const limitTexts: Readonly<Record<keyof typeof limits, string>> = {
  fileBytes: 'the file is larger than a record may be',
  depth: 'maps and lists lie too deep inside each other',
  nodes: 'the file holds more values than a record may have',
  yamlMarks: 'the file holds more values than a record may have',
  aliases: 'the file uses more aliases than a record may have',
  carriers: 'parts carry one another in a longer chain than a device may have',
  listItems: 'the list is longer than any list of a record may be',
  mapItems: 'the map holds more items than any map of a record may',
  textCharacters: 'the text is longer than any text of a record may be',
  problems: 'there are more problems than are kept; the rest of the file was not looked at',
};
