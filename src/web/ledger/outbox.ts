import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { QueuedChange } from './sync-state.ts';

/** A change as the outbox keeps it. */
export interface OutboxItem {
  readonly queued: QueuedChange;
  /** Acknowledged by the ledger; kept until everything before and after it is home too, to tell own from others'. */
  readonly home: boolean;
}

interface OutboxSchema extends DBSchema {
  items: {
    key: number;
    value: OutboxItem & { readonly assessment: string; readonly key?: number };
    indexes: { readonly assessment: string; readonly change: string };
  };
}

/** Where changes lie until the server has them: on the disk of this browser, shared by its windows. */
export interface Outbox {
  /** All of one assessment, in the order in which they were put. */
  read(assessment: string): Promise<readonly OutboxItem[]>;
  /** Which assessments have changes that are not home? */
  waiting(): Promise<readonly string[]>;
  /** Resolves when the change is on disk. */
  put(assessment: string, queued: QueuedChange): Promise<void>;
  /** Notes that the ledger has a change; clears what is not needed any more. */
  markHome(assessment: string, change: string): Promise<void>;
  /** Takes a change out, and puts another in its stead if one is given, in one go. */
  remove(assessment: string, change: string, by?: QueuedChange): Promise<void>;
}

/** Opens the outbox of this browser. Every method rejects where the browser keeps nothing (private window, full disk). */
export const openOutbox = (): Outbox => {
  let opened: Promise<IDBPDatabase<OutboxSchema>> | undefined;
  const database = () => {
    opened ??= openOutboxDatabase();
    return opened;
  };
  return {
    read: async (assessment) => (await database()).getAllFromIndex('items', 'assessment', assessment),
    waiting: async () => {
      const items = await (await database()).getAll('items');
      return [...new Set(items.filter(({ home }) => !home).map(({ assessment }) => assessment))];
    },
    put: async (assessment, queued) => {
      const writing = (await database()).transaction('items', 'readwrite', { durability: 'strict' });
      await Promise.all([writing.store.add({ assessment, queued, home: false }), writing.done]);
    },
    markHome: async (assessment, change) => markHome(await database(), assessment, change),
    remove: async (assessment, change, by) => {
      const writing = (await database()).transaction('items', 'readwrite', { durability: 'strict' });
      const key = await writing.store.index('change').getKey(change);
      if (key !== undefined) await writing.store.delete(key);
      if (by) await writing.store.add({ assessment, queued: by, home: false });
      await writing.done;
    },
  };
};

const openOutboxDatabase = () =>
  openDB<OutboxSchema>('unfasten', 1, {
    upgrade: (database) => {
      const items = database.createObjectStore('items', { keyPath: 'key', autoIncrement: true });
      items.createIndex('assessment', 'assessment');
      items.createIndex('change', 'queued.change');
    },
  });

const markHome = async (database: IDBPDatabase<OutboxSchema>, assessment: string, change: string): Promise<void> => {
  const writing = database.transaction('items', 'readwrite');
  const items = await writing.store.index('assessment').getAll(assessment);
  const rest = items.filter(({ queued, home }) => !home && queued.change !== change);
  for (const item of items) {
    if (rest.length === 0 && item.key !== undefined) await writing.store.delete(item.key);
    else if (item.queued.change === change) await writing.store.put({ ...item, home: true });
  }
  await writing.done;
};
