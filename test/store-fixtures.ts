import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Json, Operation } from '#record/patch/operation';
import type { ChangeRequest, NewAssessment } from '#store/ledger';
import { seedRecord } from './faults/seed-record.ts';

/** A folder of its own for one test file, and how to take it away. */
export const temporaryFolder = (name: string): { readonly path: string; remove(): void } => {
  const path = mkdtempSync(join(tmpdir(), `unfasten-${name}-`));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
};

/** The wall time of every change in tests. */
export const AT = '2026-10-01T09:00:00+02:00';

/** An assessment to begin, with the small record of the fault tests. */
export const newAssessment = (more: Partial<NewAssessment> = {}): NewAssessment => ({
  assessment: 'tarn-5',
  change: randomUUID(),
  author: 'J. K.',
  at: AT,
  document: seedRecord(),
  ...more,
});

/** A change to that assessment. */
export const changeOf = (
  base: number,
  patch: readonly Operation[],
  more: Partial<ChangeRequest> = {},
): ChangeRequest => ({
  assessment: 'tarn-5',
  change: randomUUID(),
  author: 'J. K.',
  at: AT,
  base,
  patch,
  ...more,
});

/** A log entry of the first session, added. */
export const addEntry = (id: string, at: number): Operation => ({
  op: 'add',
  path: `/sessions/x1/entries/${id}`,
  value: { at, do: 'pry', target: 'cover-glue' } satisfies Json,
});
