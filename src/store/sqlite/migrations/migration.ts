import type { Kysely } from 'kysely';

/** One step of the database's form. It adds and never renames or drops; a released step is never edited. */
export interface Migration {
  /** The `user_version` after it. */
  readonly version: number;
  /** What it adds, for the person who reads the list. */
  readonly adds: string;
  up(database: Kysely<unknown>): Promise<void>;
}
