import { createHash } from 'node:crypto';
import { isUnfastenError } from '#quantity/unfasten-error';
import type { EvidenceStore } from '../evidence-store.ts';
import type { Ledger } from '../ledger.ts';

/** A file of evidence that is not in the data folder, and who names it. */
export interface MissingEvidence {
  readonly assessment: string;
  readonly sha256: string;
}

/** What reading every file of evidence again found. */
export interface EvidenceVerification {
  readonly files: number;
  /** Names of files whose bytes have another SHA-256 than their name says, or that cannot be read. */
  readonly damaged: readonly string[];
  /** Files that came in with an import and are gone. */
  readonly lost: readonly MissingEvidence[];
  /** Files that a document names by their SHA-256 and that may never have been here: somebody else may hold them. */
  readonly elsewhere: readonly MissingEvidence[];
}

/**
 * Does every file of evidence still hold the bytes it is named by, and is every file there that the assessments name? An
 * assessment whose chain is broken is passed over, since `Ledger.verify` names it. Cost: reads all files.
 */
export const verifyEvidence = async (evidence: EvidenceStore, ledger: Ledger): Promise<EvidenceVerification> => {
  const names = await evidence.list();
  const damaged: string[] = [];
  for (const name of names) if ((await hashOf(evidence, name)) !== name) damaged.push(name);
  const [lost, elsewhere]: [MissingEvidence[], MissingEvidence[]] = [[], []];
  const present = new Set(names);
  for (const { assessment } of await ifReadable(ledger.shelf(), [])) {
    const named = await namedBy(ledger, assessment);
    const missing = (list: ReadonlySet<string>) =>
      [...list].filter((sha256) => !present.has(sha256)).map((sha256) => ({ assessment, sha256 }));
    lost.push(...missing(named.imported));
    elsewhere.push(...missing(named.documented).filter(({ sha256 }) => !named.imported.has(sha256)));
  }
  return { files: names.length, damaged, lost, elsewhere };
};

const namedBy = async (ledger: Ledger, assessment: string) => {
  const source = await ifReadable(ledger.source(assessment), undefined);
  const head = await ifReadable(ledger.head(assessment), undefined);
  const documented = Object.values(head?.document.evidence ?? {}).flatMap(({ sha256 }) => sha256 ?? []);
  return { imported: new Set(Object.values(source?.files ?? {})), documented: new Set(documented) };
};

/** What is damaged is named by `Ledger.verify`; here it only must not end the search. */
const ifReadable = async <T>(reading: Promise<T>, otherwise: T): Promise<T> => {
  try {
    return await reading;
  } catch (error) {
    if (isUnfastenError(error, 'ledger')) return otherwise;
    throw error;
  }
};

const hashOf = async (evidence: EvidenceStore, name: string): Promise<string | undefined> => {
  const hash = createHash('sha256');
  try {
    for await (const chunk of await evidence.open(name)) hash.update(chunk as Uint8Array);
    return hash.digest('hex');
  } catch {
    return undefined;
  }
};
