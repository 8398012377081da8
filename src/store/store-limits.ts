import { limits } from '#record/limits';

/** How large may a change, a document or a file of evidence be? Beyond one of these it is refused with the limit's name. */
export const storeLimits = {
  /** Operations of one change. */
  operationsPerChange: 2_000,
  /** Bytes of one change's patch as canonical JSON. */
  changeBytes: 4 * 1024 * 1024,
  /** Bytes of one document as canonical JSON; half of what a file may have, since YAML with indentation is longer. */
  documentBytes: limits.fileBytes / 2,
  /** Segments of one path. */
  pathSegments: limits.depth,
  /** Characters of one path. */
  pathCharacters: 4_000,
  /** Characters of an author's name. */
  authorCharacters: 200,
  /** Characters of a change's note. */
  noteCharacters: 10_000,
  /** Bytes of one rubric's text. */
  rubricBytes: 1024 * 1024,
  /** Bytes of one file of evidence. */
  evidenceBytes: 8 * 1024 * 1024 * 1024,
} as const;
