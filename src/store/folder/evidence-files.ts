import type { Assessment } from '#record/schema/assessment';
import { DistinctNames } from './distinct-names.ts';
import { isPlainFileName } from './evidence-names.ts';

/** A file of evidence whose name another file had: it is written under its own, which the written document names. */
export interface RenamedEvidence {
  readonly was: string;
  readonly now: string;
}

/** Which files of evidence lie in the folder of an assessment, and what its document says of them there. */
export interface EvidenceFiles {
  /** SHA-256 by name; no name hides another on any file system. */
  readonly files: ReadonlyMap<string, string>;
  readonly renamed: readonly RenamedEvidence[];
  /** Names whose content the ledger does not hold, or that may not stand in a folder. */
  readonly missing: readonly string[];
  /** The document with every `file` as it is written; the very one given where no name had to change. */
  readonly document: Assessment;
}

/** A file that somebody names. */
interface NamedFile {
  readonly name: string;
  readonly sha256: string;
  /** The record of evidence that names it; none where only the imported folder did. */
  readonly key?: string;
}

/**
 * Under which names do files of evidence belong in the folder of an assessment? Those its document names now, and those it was
 * imported with. Of several files of one name that keeps it which lay there at the import and is still meant; then the first by
 * the id of its record; last what only the import knew. The others get the beginning of their SHA-256 in the name, so that
 * nothing is written over and taking the folder in and writing it out again changes nothing. A file without a name is named by
 * its SHA-256.
 */
export const evidenceFiles = (
  document: Assessment,
  imported: Readonly<Record<string, string>>,
  isHeld: (sha256: string) => boolean,
): EvidenceFiles => {
  const names = new DistinctNames();
  const renamed: RenamedEvidence[] = [];
  const missing = new Set<string>();
  const written = new Map<string, string>();
  for (const { name, sha256, key } of byRight(document, imported)) {
    if (!isPlainFileName(name) || !isHeld(sha256)) {
      missing.add(name);
      continue;
    }
    const now = names.claim(name, sha256);
    if (now === name) continue;
    if (!renamed.some((one) => one.was === name && one.now === now)) renamed.push({ was: name, now });
    if (key !== undefined) written.set(key, now);
  }
  return { files: names.files, renamed, missing: [...missing].sort(), document: withNames(document, written) };
};

/** Files in the order in which they have a right to their name. */
const byRight = ({ evidence = {} }: Assessment, imported: Readonly<Record<string, string>>): readonly NamedFile[] => {
  const records = Object.entries(evidence).sort(([a], [b]) => (a < b ? -1 : 1));
  const documented = records.flatMap(([key, { file, sha256 }]): NamedFile[] =>
    sha256 === undefined ? [] : [{ name: file ?? sha256, sha256, key }],
  );
  // A record without a SHA-256 means whatever lay in the folder under its name.
  const meant = new Set(records.map(([, { file, sha256 }]) => `${sha256 ?? ''}/${file}`));
  const there = Object.keys(imported)
    .sort()
    .map((name): NamedFile => ({ name, sha256: imported[name] ?? '' }));
  const isMeant = ({ name, sha256 }: NamedFile): boolean => meant.has(`/${name}`) || meant.has(`${sha256}/${name}`);
  return [...there.filter(isMeant), ...documented, ...there.filter((file) => !isMeant(file))];
};

const withNames = (document: Assessment, written: ReadonlyMap<string, string>): Assessment => {
  if (written.size === 0) return document;
  const evidence = Object.entries(document.evidence ?? {}).map(([key, record]) => {
    const file = written.get(key);
    return [key, file === undefined ? record : { ...record, file }] as const;
  });
  return { ...document, evidence: Object.fromEntries(evidence) };
};
