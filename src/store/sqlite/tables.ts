import type { Kysely } from 'kysely';

/** One link of a chain as it lies in the database; `patch` is canonical JSON. */
export interface ChangeRow {
  readonly assessment: string;
  readonly revision: number;
  readonly change: string;
  readonly base: number;
  readonly patch: string;
  readonly author: string;
  readonly at: string;
  readonly note: string | null;
  readonly received: string;
  readonly undoes: number | null;
  /** Canonical JSON of the `SourceNote`. */
  readonly source: string | null;
  readonly previous: string | null;
  readonly hash: string;
}

/** The tip of a chain and what the shelf shows; all of it follows from the changes. */
export interface AssessmentRow {
  readonly assessment: string;
  readonly revision: number;
  readonly hash: string;
  readonly title: string | null;
  readonly product: string;
  readonly category: string | null;
  readonly invented: number;
  readonly state: string;
  readonly changed: string;
}

/** A document kept so that the chain need not be replayed: the state after `revision`, whose change has `hash`. */
export interface HeadRow {
  readonly assessment: string;
  readonly revision: number;
  readonly hash: string;
  readonly document: string;
  readonly document_sha256: string;
}

/** The file an assessment was imported from, byte for byte. */
export interface SourceRow {
  readonly assessment: string;
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** One kept edition of a house rubric or of a laboratory's readings: its text as it was written. */
export interface EditionRow {
  readonly id: string;
  readonly edition: number;
  readonly sha256: string;
  readonly text: string;
  readonly author: string;
  readonly at: string;
  readonly received: string;
}

/** The tables of the ledger. */
export interface Tables {
  readonly changes: ChangeRow;
  readonly assessments: AssessmentRow;
  readonly heads: HeadRow;
  readonly sources: SourceRow;
  readonly rubrics: EditionRow;
  readonly laboratories: EditionRow;
}

/** The ledger's database, asked through the query builder. */
export type LedgerDatabase = Kysely<Tables>;
