import type { EvidenceStore } from '#store/evidence-store';
import type { OpenedLedger } from '#store/ledger';
import { openEvidence } from '#store/open-evidence';
import { openLedger } from '#store/open-ledger';
import type { CommandContext } from './command-context.ts';
import { makeFolder } from './make-folder.ts';

/** Words of the option every ledger command takes. */
export const dataOption = ['--data <folder>', 'data folder with the ledger and its evidence'] as const;

/** The ledger and the evidence of a data folder, for one command. */
export interface LedgerStores extends OpenedLedger {
  readonly evidence: EvidenceStore;
}

/** What a command on the ledger needs to know. */
export interface LedgerCommand {
  readonly data: string;
  readonly readOnly: boolean;
  /** Words of the progress line. */
  readonly label: string;
}

/** Opens the ledger and the evidence of a data folder; what opening put right is said on standard error. Whoever opens closes. */
export const openStores = async (
  { data, readOnly }: Pick<LedgerCommand, 'data' | 'readOnly'>,
  { output }: CommandContext,
): Promise<LedgerStores> => {
  if (!readOnly) makeFolder(data);
  const opened = await openLedger({ folder: data, readOnly });
  for (const { assessment, why } of opened.rebuilt)
    output.note(`${assessment}: the kept document was made anew from the changes, since ${why}.`);
  for (const { assessment, what } of opened.broken) output.note(`${assessment}: ${what}.`);
  const evidence = openEvidence(data);
  try {
    // What a crash broke off while it was being uploaded has no name yet, and nobody was told that it was taken.
    if (!readOnly) await evidence.tidy();
  } catch (error) {
    await opened.ledger.close();
    throw error;
  }
  return { ...opened, evidence };
};

/** Does a command's work on the ledger of a data folder, and lets go of it whatever comes. */
export const withLedger = async <T>(
  { label, ...where }: LedgerCommand,
  context: CommandContext,
  work: (stores: LedgerStores) => Promise<T>,
): Promise<T> => {
  const progress = context.startProgress(label);
  try {
    const stores = await openStores(where, context);
    try {
      return await work(stores);
    } finally {
      await stores.ledger.close();
    }
  } finally {
    progress.stop();
  }
};
