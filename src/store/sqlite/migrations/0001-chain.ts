import { type Kysely, sql } from 'kysely';
import type { Migration } from './migration.ts';

/** The chain of changes, the tips with what the shelf shows, kept heads, and imported files. */
export const chain: Migration = {
  version: 1,
  adds: 'changes, assessments, heads, sources',
  up: async (database) => {
    await createAssessments(database);
    await createChanges(database);
    await createKept(database);
    for (const verb of ['UPDATE', 'DELETE'])
      await sql
        .raw(
          `CREATE TRIGGER changes_no_${verb.toLowerCase()} BEFORE ${verb} ON changes ` +
            "BEGIN SELECT RAISE(ABORT, 'a change is never rewritten'); END",
        )
        .execute(database);
  },
};

const createAssessments = (database: Kysely<unknown>): Promise<void> =>
  database.schema
    .createTable('assessments')
    .addColumn('assessment', 'text', (column) => column.primaryKey())
    .addColumn('revision', 'integer', (column) => column.notNull())
    .addColumn('hash', 'text', (column) => column.notNull())
    .addColumn('title', 'text')
    .addColumn('product', 'text', (column) => column.notNull())
    .addColumn('category', 'text')
    .addColumn('invented', 'integer', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('changed', 'text', (column) => column.notNull())
    .execute();

const createChanges = (database: Kysely<unknown>): Promise<void> =>
  database.schema
    .createTable('changes')
    .addColumn('assessment', 'text', (column) => column.notNull().references('assessments.assessment'))
    .addColumn('revision', 'integer', (column) => column.notNull())
    .addColumn('change', 'text', (column) => column.notNull())
    .addColumn('base', 'integer', (column) => column.notNull())
    .addColumn('patch', 'text', (column) => column.notNull())
    .addColumn('author', 'text', (column) => column.notNull())
    .addColumn('at', 'text', (column) => column.notNull())
    .addColumn('note', 'text')
    .addColumn('received', 'text', (column) => column.notNull())
    .addColumn('undoes', 'integer')
    .addColumn('source', 'text')
    .addColumn('previous', 'text')
    .addColumn('hash', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('changes_in_order', ['assessment', 'revision'])
    .addUniqueConstraint('changes_once', ['assessment', 'change'])
    .execute();

const createKept = async (database: Kysely<unknown>): Promise<void> => {
  await database.schema
    .createTable('heads')
    .addColumn('assessment', 'text', (column) => column.primaryKey().references('assessments.assessment'))
    .addColumn('revision', 'integer', (column) => column.notNull())
    .addColumn('hash', 'text', (column) => column.notNull())
    .addColumn('document', 'text', (column) => column.notNull())
    .addColumn('document_sha256', 'text', (column) => column.notNull())
    .execute();
  await database.schema
    .createTable('sources')
    .addColumn('assessment', 'text', (column) => column.primaryKey().references('assessments.assessment'))
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('bytes', 'blob', (column) => column.notNull())
    .execute();
};
