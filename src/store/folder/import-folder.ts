import { createReadStream, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { UnfastenError } from '#quantity/unfasten-error';
import { limits } from '#record/limits';
import type { Problem } from '#record/problem';
import { decodeText } from '#record/read/decode-text';
import { parseJson } from '#record/read/parse-json';
import { parseYaml } from '#record/read/parse-yaml';
import { readAssessment } from '#record/read/read-assessment';
import type { EvidenceStore } from '../evidence-store.ts';
import type { Acknowledgement, ChangeHead, Ledger } from '../ledger.ts';
import { filesBelow } from './evidence-names.ts';

/** The names an assessment's file may have. */
const FILE_NAMES: readonly string[] = ['assessment.yaml', 'assessment.yml', 'assessment.json'];

/** A folder to be taken into the ledger, and as what. */
export interface FolderImport extends ChangeHead {
  readonly folder: string;
}

/** What was taken in. */
export interface ImportedFolder {
  readonly acknowledgement: Acknowledgement;
  /** What the record's checks find in it; taken all the same. */
  readonly problems: readonly Problem[];
  /** Files of evidence, by name. */
  readonly evidence: readonly string[];
}

/**
 * Takes an assessment folder into the ledger: its file byte for byte, the document as the first change, every regular file
 * of `evidence/`. Throws kind `usage` when there is no assessment file or more than one, kind `record` when the text
 * cannot be read, kind `change` when it breaks the record's shape.
 */
export const importFolder = async (
  { ledger, evidence }: { readonly ledger: Ledger; readonly evidence: EvidenceStore },
  { folder, ...head }: FolderImport,
): Promise<ImportedFolder> => {
  const name = assessmentFileIn(folder);
  const path = join(folder, name);
  const bytes = readWithinLimit(path);
  const { problems } = readAssessment({ fileName: path, bytes });
  const document = documentOf(path, bytes, problems);
  const files: Record<string, string> = {};
  const evidenceFolder = join(folder, 'evidence');
  for (const file of await filesBelow(evidenceFolder))
    files[file] = (await evidence.put(createReadStream(join(evidenceFolder, file)))).sha256;
  const acknowledgement = await ledger.create({ ...head, document, source: { name, bytes, files } });
  return { acknowledgement, problems, evidence: Object.keys(files) };
};

const assessmentFileIn = (folder: string): string => {
  const present = readdirSync(folder);
  const [name, other] = FILE_NAMES.filter((candidate) => present.includes(candidate));
  if (name !== undefined && other === undefined) return name;
  const what = name === undefined ? 'There is no assessment in this folder' : 'There are several assessments here';
  throw new UnfastenError('usage', what, {
    where: folder,
    value: other ?? present.slice(0, 5).join(', '),
    remedy: `Name a folder with one of ${FILE_NAMES.join(', ')}.`,
  });
};

const readWithinLimit = (path: string): Uint8Array => {
  const { size } = statSync(path);
  if (size <= limits.fileBytes) return readFileSync(path);
  throw new UnfastenError('file', `The file is larger than the limit fileBytes of ${limits.fileBytes} bytes`, {
    where: path,
    value: `${size} bytes`,
    remedy: 'Split it.',
  });
};

/** The values of the file. What hangs wrong in them is no obstacle; a text that cannot be read is. */
const documentOf = (path: string, bytes: Uint8Array, problems: readonly Problem[]): unknown => {
  const { text } = decodeText(bytes);
  const parsed = text === undefined ? undefined : path.endsWith('.json') ? parseJson(text) : parseYaml(text);
  if (parsed?.complete && parsed.problems.length === 0) return parsed.data;
  const [first] = problems;
  throw new UnfastenError('record', first?.message ?? 'The file cannot be read', {
    where: first ? `${first.file}:${first.line}:${first.column}` : path,
    value: first?.value,
    remedy: first?.remedy ?? 'Mend it first.',
  });
};
