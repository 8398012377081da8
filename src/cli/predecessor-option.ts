import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { Option } from 'commander';
import type { Assessment } from '#record/schema/assessment';
import { requireAssessment } from './read-folder.ts';

/** The option of commands that draw a lineage: the record of the predecessor. */
export const predecessorOption = (): Option =>
  new Option(
    '--predecessor <path>',
    'record of the predecessor (the folder that product/predecessor names, beside this one)',
  );

/**
 * The record of the predecessor: of the path given, else of the folder beside this one that `product/predecessor` names. Undefined
 * where none is given and there is no such folder: a predecessor may be known by name alone. Throws as `requireAssessment` does.
 */
export const predecessorOf = (
  given: string | undefined,
  { folder, assessment }: { readonly folder: string; readonly assessment: Assessment },
): Assessment | undefined => {
  if (given !== undefined) return requireAssessment(given).assessment;
  const { predecessor } = assessment.product;
  // A name is no path: it may hold anything, and a folder elsewhere is not meant.
  if (predecessor === undefined || !/^[\w.-]+$/u.test(predecessor) || /^\.+$/u.test(predecessor)) return undefined;
  const beside = join(folder, '..', predecessor);
  return existsSync(beside) && statSync(beside).isDirectory() ? requireAssessment(beside).assessment : undefined;
};
