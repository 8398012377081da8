import type { Database, Statement } from 'better-sqlite3';
import { type DatabaseConnection, type Driver, type SqliteDatabase, SqliteDialect, SqliteDriver } from 'kysely';

/** Statements kept compiled; the ledger asks some twenty different ones. */
const MOST_STATEMENTS = 64;

/**
 * SQLite for the query builder, with two differences: a statement is compiled once and not at every call, and on a full
 * disk, where SQLite has ended the transaction by itself, no rollback follows that would fail and hide what happened.
 */
export class LedgerDialect extends SqliteDialect {
  private readonly database: Database;

  constructor(database: Database) {
    super({ database });
    this.database = database;
  }

  override createDriver(): Driver {
    return new LedgerDriver(this.database);
  }
}

class LedgerDriver extends SqliteDriver {
  private readonly database: Database;

  constructor(database: Database) {
    super({ database: withKeptStatements(database) });
    this.database = database;
  }

  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.database.inTransaction) await super.rollbackTransaction(connection);
  }
}

const withKeptStatements = (database: Database): SqliteDatabase => {
  const kept = new Map<string, Statement>();
  const prepare = (text: string): Statement => {
    const known = kept.get(text);
    if (known) return known;
    const statement = database.prepare(text);
    if (kept.size < MOST_STATEMENTS) kept.set(text, statement);
    return statement;
  };
  return { prepare: prepare as unknown as SqliteDatabase['prepare'], close: () => void database.close() };
};
