import { UnfastenError } from '#quantity/unfasten-error';
import type { Operation } from '#record/patch/operation';
import { canonicalJson } from '../canonical-json.ts';
import type { ShelfItem, SourceNote, StoredChange } from '../ledger.ts';
import type { AssessmentRow, ChangeRow } from './tables.ts';

/** How does a change lie in the database? */
export const rowOfChange = (change: StoredChange): ChangeRow => ({
  assessment: change.assessment,
  revision: change.revision,
  change: change.change,
  base: change.base,
  patch: canonicalJson(change.patch),
  author: change.author,
  at: change.at,
  note: change.note ?? null,
  received: change.received,
  undoes: change.undoes ?? null,
  source: change.source === undefined ? null : canonicalJson(change.source),
  previous: change.previous ?? null,
  hash: change.hash,
});

/** Which change does a row hold? Throws kind `ledger` when its patch is no JSON. */
export const changeOfRow = (row: ChangeRow): StoredChange => ({
  assessment: row.assessment,
  revision: row.revision,
  change: row.change,
  base: row.base,
  patch: storedJson(row, row.patch) as readonly Operation[],
  author: row.author,
  at: row.at,
  ...(row.note === null ? {} : { note: row.note }),
  received: row.received,
  ...(row.undoes === null ? {} : { undoes: row.undoes }),
  ...(row.source === null ? {} : { source: storedJson(row, row.source) as SourceNote }),
  ...(row.previous === null ? {} : { previous: row.previous }),
  hash: row.hash,
});

const storedJson = ({ assessment, revision }: ChangeRow, text: string): unknown => {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    throw new UnfastenError('ledger', 'A stored change is no JSON any more', {
      where: `${assessment} revision ${revision}`,
      value: text.slice(0, 80),
      remedy: 'Run `unfasten ledger verify`; bring back the last backup.',
    });
  }
};

/** An assessment as the shelf shows it, from its row. */
export const shelfItemOf = (row: AssessmentRow): ShelfItem => ({
  assessment: row.assessment,
  ...(row.title === null ? {} : { title: row.title }),
  product: row.product,
  ...(row.category === null ? {} : { category: row.category }),
  invented: row.invented === 1,
  state: row.state === 'logged' ? 'logged' : 'prepared',
  revision: row.revision,
  changed: row.changed,
});
