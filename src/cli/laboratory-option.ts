import { Option } from 'commander';
import { invariant, UnfastenError } from '#quantity/unfasten-error';
import type { Assessment } from '#record/schema/assessment';
import { valueWords } from '#report/words/reading-words';
import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import { readLaboratory } from '#verdict/laboratory/read-laboratory';
import { laboratoryReadings, readBy, withLaboratory } from '#verdict/laboratory/with-laboratory';
import { requireAssessment } from './read-folder.ts';
import { readGivenFile } from './read-given-file.ts';

/** The option of every command that works out a verdict: whose readings hold where the record chooses none. */
export const laboratoryOption = (): Option =>
  new Option('--laboratory <file>', "a laboratory's readings (format unfasten/laboratory); the record's own go first");

/** The readings of a file. Throws a record error with the first problem and the number of the others. */
export const requireLaboratory = (path: string | undefined): Laboratory | undefined => {
  if (path === undefined) return undefined;
  const { laboratory, problems } = readLaboratory(readGivenFile(path));
  if (laboratory) return laboratory;
  const [first, ...others] = problems.filter(({ severity }) => severity === 'error');
  invariant(first !== undefined, 'readings that cannot be used have an error', path);
  throw new UnfastenError('record', first.message, {
    where: `${first.file}:${first.line}:${first.column} ${first.path}`.trimEnd(),
    value: first.value,
    remedy: `${first.remedy}${others.length > 0 ? ` There are ${others.length} more problems.` : ''}`,
  });
};

/** A record as it was written, and as figures are worked out from it: with the laboratory's readings where it chose none. */
export interface ReadRecord {
  readonly written: Assessment;
  readonly assessment: Assessment;
  readonly laboratory: Laboratory | undefined;
  /** Folder of the record. */
  readonly folder: string;
  /** What a reader is told of the readings; empty without a laboratory. */
  readonly lines: readonly string[];
}

/** The record of a path under a laboratory's readings, if any. Throws as `requireAssessment` does. */
export const requireRecord = (path: string, laboratoryFile: string | undefined): ReadRecord => {
  const laboratory = requireLaboratory(laboratoryFile);
  const { assessment: written, folder } = requireAssessment(path);
  return {
    written,
    assessment: withLaboratory(written, laboratory),
    laboratory,
    folder,
    lines: laboratory ? readingLines(written, laboratory) : [],
  };
};

const readingLines = (written: Assessment, laboratory: Laboratory): readonly string[] => {
  const readings = [...laboratoryReadings(written, laboratory)];
  const of = (holding: boolean): string =>
    readings.flatMap(([id, { value, holds }]) => (holds === holding ? [`${id}: ${valueWords(value)}`] : [])).join('; ');
  const [held, overruled] = [of(true), of(false)];
  return [
    `Readings of the laboratory ${laboratory.name} (${laboratory.id}, edition ${laboratory.edition} of ${laboratory.date}): ${held || 'none holds here'}.`,
    ...(overruled === '' ? [] : [`The record reads for itself where the laboratory has: ${overruled}.`]),
  ];
};

/** The same for other programs; nothing without a laboratory. */
export const laboratoryForm = ({ written, laboratory }: ReadRecord): Readonly<Record<string, unknown>> =>
  laboratory
    ? { laboratory: { ...readBy(laboratory), readings: Object.fromEntries(laboratoryReadings(written, laboratory)) } }
    : {};
