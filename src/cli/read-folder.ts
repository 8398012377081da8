import { createHash } from 'node:crypto';
import { closeSync, openSync, readdirSync, readFileSync, readSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { UnfastenError } from '#quantity/unfasten-error';
import { deviceOf } from '#record/device/device';
import { limits } from '#record/limits';
import { replayFindings } from '#record/log/replay';
import { type Problem, problemAt, type UnplacedProblem } from '#record/problem';
import { fileTooLarge } from '#record/read/file-too-large';
import { type AssessmentReading, readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { unknownNameRemedy } from '#record/suggest';
import { resolveInterpretations } from '#schemes/eu-2023-1669/interpretations';

/** What an assessment folder or file holds, and where it was read. */
export interface FolderReading extends AssessmentReading {
  /** Path of the assessment file as it is shown. */
  readonly file: string;
  /** Folder of the assessment, where `evidence/` lies. */
  readonly folder: string;
}

const NAMES = ['assessment.yaml', 'assessment.yml', 'assessment.json'] as const;

/**
 * What does an assessment folder, a YAML file or a JSON file say, and what is wrong with it? Checks the schema, what hangs
 * together, the replay of the log, the chosen interpretations, and the evidence files against their names and SHA-256. Throws `UnfastenError` of kind
 * `usage` when the path holds no assessment; a path that cannot be opened keeps Node's error.
 */
export const readFolder = (path: string): FolderReading => {
  const isFolder = statSync(path).isDirectory();
  const file = isFolder ? assessmentFile(path) : path;
  const folder = isFolder ? path : join(path, '..');
  const stat = statSync(file);
  if (!stat.isFile())
    throw new UnfastenError('usage', 'This is no file', {
      where: file,
      value: path,
      remedy: 'Name a folder or a file.',
    });
  if (stat.size > limits.fileBytes) return { file, folder, problems: [fileTooLarge(file, stat.size)] };
  const reading = readAssessment({ fileName: file, bytes: readFileSync(file) }, [
    replayProblems,
    interpretationProblems,
    (assessment) => evidenceProblems(assessment, folder),
  ]);
  return { file, folder, ...reading };
};

/**
 * The assessment a path holds, for commands that compute from it. Throws `UnfastenError` of kind `record` with the first
 * of its problems when it must be mended first.
 */
export const requireAssessment = (path: string): FolderReading & { readonly assessment: Assessment } => {
  const reading = readFolder(path);
  if (reading.assessment) return { ...reading, assessment: reading.assessment };
  const errors = reading.problems.filter(({ severity }) => severity === 'error');
  const [first] = errors;
  const others = errors.length > 1 ? ` There are ${errors.length - 1} more: run \`unfasten check ${path}\`.` : '';
  throw new UnfastenError('record', first?.message ?? 'The record has problems', {
    where: first ? `${first.file}:${first.line}:${first.column} ${first.path}` : path,
    value: asWritten(first?.value),
    remedy: `${first?.remedy ?? 'Check the record.'}${others}`,
  });
};

/**
 * A problem shows its value as JSON in one line, and so does an error: taken back to the value, it is quoted once. A text that
 * was cut when shown is no JSON any more; its beginning stands for it.
 */
const asWritten = (shown: string | undefined): unknown => {
  const value = shown === undefined ? undefined : parsed(shown);
  if (shown === undefined || value !== undefined) return value;
  const beginning = shown.slice(0, SHOWN_BEGINNING).replace(/\\(u[\da-f]{0,3})?$/, '');
  return shown.startsWith('"') ? `${parsed(`${beginning}"`) ?? beginning}…` : shown;
};

/** Characters of a cut text that are shown again: short enough not to be cut a second time. */
const SHOWN_BEGINNING = 80;

const parsed = (json: string): unknown => {
  try {
    return JSON.parse(json);
  } catch {
    return undefined;
  }
};

const assessmentFile = (folder: string): string => {
  const present = new Set(readdirSync(folder));
  const [name, other] = NAMES.filter((candidate) => present.has(candidate));
  const details = { where: folder, value: other ?? [...present].slice(0, 5).join(', ') };
  if (name === undefined) {
    const remedy = `Name a folder with ${NAMES.join(' or ')}, or such a file itself.`;
    throw new UnfastenError('usage', 'There is no assessment in this folder', { ...details, remedy });
  }
  if (other !== undefined) {
    const remedy = `Keep one of ${name} and ${other}, or name the file itself.`;
    throw new UnfastenError('usage', 'There are several assessments in this folder', { ...details, remedy });
  }
  return join(folder, name);
};

const replayProblems = (assessment: Assessment): readonly UnplacedProblem[] =>
  replayFindings(assessment, deviceOf(assessment)).map(({ path, ...words }) =>
    problemAt(path.split('/'), { ...words, kind: 'log', at: 'key' }),
  );

/** Which chosen readings are none? An unknown switch or value is an error: the default would otherwise hold unseen. */
const interpretationProblems = (assessment: Assessment): readonly UnplacedProblem[] => {
  const chosen = Object.entries(assessment.interpretations ?? {}).map(([id, { value }]) => [id, value] as const);
  return resolveInterpretations(Object.fromEntries(chosen)).problems.map(({ id, value, problem, allowed }) => {
    const unknownValue = problem === 'unknown-value';
    const wrong = unknownValue ? value : id;
    return problemAt(unknownValue ? ['interpretations', id, 'value'] : ['interpretations', id], {
      value: wrong,
      kind: 'value',
      ...(unknownValue ? {} : { at: 'key' as const }),
      message: unknownValue
        ? 'this interpretation has no such reading'
        : 'there is no such switch among the interpretations',
      remedy: unknownNameRemedy(wrong, allowed, `Choose one of: ${allowed.join(', ')}.`),
    });
  });
};

const evidenceProblems = (assessment: Assessment, folder: string): readonly UnplacedProblem[] =>
  Object.entries(assessment.evidence ?? {}).flatMap(([id, { file, sha256 }]) =>
    file === undefined ? [] : fileProblems(['evidence', id], { file, sha256, folder }),
  );

const fileProblems = (
  path: readonly string[],
  { file, sha256, folder }: { readonly file: string; readonly sha256: string | undefined; readonly folder: string },
): readonly UnplacedProblem[] => {
  if (/[\\/]/.test(file) || file.startsWith('.'))
    return [
      problemAt([...path, 'file'], {
        value: file,
        kind: 'value',
        message: 'evidence is named by its file name inside evidence/',
        remedy: 'Put the file into evidence/ and write its name alone.',
      }),
    ];
  const hash = fileHash(join(folder, 'evidence', file));
  if (hash === undefined)
    return [
      problemAt([...path, 'file'], {
        value: file,
        kind: 'suspicious',
        severity: 'warning',
        message: 'there is no such file in evidence/',
        remedy: 'Put it there, or correct the name.',
      }),
    ];
  if (sha256 === undefined || sha256 === hash) return [];
  return [
    problemAt([...path, 'sha256'], {
      value: sha256,
      message: `the file has another content: its SHA-256 is ${hash}`,
      remedy: 'Bring the file back that was recorded; if this one is right, record it as new evidence.',
    }),
  ];
};

const CHUNK = 1 << 20;

/** SHA-256 of a file in hex, read in pieces so that a long clip does not fill the memory; `undefined` where there is none. */
const fileHash = (path: string): string | undefined => {
  if (!statSync(path, { throwIfNoEntry: false })?.isFile()) return undefined;
  const hash = createHash('sha256');
  const chunk = new Uint8Array(CHUNK);
  const handle = openSync(path, 'r');
  try {
    for (let read = readSync(handle, chunk); read > 0; read = readSync(handle, chunk))
      hash.update(chunk.subarray(0, read));
  } finally {
    closeSync(handle);
  }
  return hash.digest('hex');
};

/** How many problems of each severity are there? */
export const countProblems = (problems: readonly Problem[]): { readonly errors: number; readonly warnings: number } => {
  const errors = problems.filter(({ severity }) => severity === 'error').length;
  return { errors, warnings: problems.length - errors };
};
