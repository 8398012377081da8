import { type Kysely, sql } from 'kysely';
import type { Migration } from './migration.ts';

/** Makes a table of editions that are never rewritten: their text as it was written. */
export const createEditions = async (database: Kysely<unknown>, table: string): Promise<void> => {
  await database.schema
    .createTable(table)
    .addColumn('id', 'text', (column) => column.notNull())
    .addColumn('edition', 'integer', (column) => column.notNull())
    .addColumn('sha256', 'text', (column) => column.notNull())
    .addColumn('text', 'text', (column) => column.notNull())
    .addColumn('author', 'text', (column) => column.notNull())
    .addColumn('at', 'text', (column) => column.notNull())
    .addColumn('received', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint(`${table}_once`, ['id', 'edition'])
    .execute();
  for (const verb of ['UPDATE', 'DELETE'])
    await sql
      .raw(
        `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table} ` +
          "BEGIN SELECT RAISE(ABORT, 'a kept edition is never rewritten'); END",
      )
      .execute(database);
};

/** Kept editions of house rubrics. */
export const rubrics: Migration = {
  version: 2,
  adds: 'rubrics',
  up: (database) => createEditions(database, 'rubrics'),
};
