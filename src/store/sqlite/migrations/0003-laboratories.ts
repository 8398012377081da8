import { createEditions } from './0002-rubrics.ts';
import type { Migration } from './migration.ts';

/** Kept editions of laboratories' readings: their text as it was written, never rewritten. */
export const laboratories: Migration = {
  version: 3,
  adds: 'laboratories',
  up: (database) => createEditions(database, 'laboratories'),
};
