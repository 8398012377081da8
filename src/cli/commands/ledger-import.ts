import { randomUUID } from 'node:crypto';
import { userInfo } from 'node:os';
import { basename, resolve } from 'node:path';
import { importFolder } from '#store/folder/import-folder';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { dataOption, withLedger } from '../ledger-stores.ts';
import { problemLine } from './check.ts';

/** Adds `unfasten ledger import`: an assessment folder becomes the first change of a chain. */
export const configureLedgerImport: ConfigureCommand = (command, context) => {
  command
    .argument('<folder>', 'assessment folder')
    .requiredOption(...dataOption)
    .option('--as <id>', "id in the ledger; the folder's name unless said")
    .option('--author <name>', 'who takes it in; your login name unless said')
    .option('--json', 'print {"acknowledgement", "problems", "evidence"}')
    .addHelpText(
      'after',
      examplesText([
        [
          'unfasten ledger import examples/tarn-5 --data bench-data',
          'takes it in under the id tarn-5, evidence included',
        ],
        ['unfasten ledger import examples/tarn-5 --as tarn-5-b --author "J. K." --data bench-data', 'under another id'],
      ]),
    )
    .action((folder: string, options: ImportOptions) => runImport(folder, options, context));
};

interface ImportOptions {
  readonly data: string;
  readonly as?: string;
  readonly author?: string;
  readonly json?: boolean;
}

const runImport = async (folder: string, options: ImportOptions, context: CommandContext): Promise<void> => {
  const { data, as = basename(resolve(folder)), author = userInfo().username, json } = options;
  const imported = await withLedger({ data, readOnly: false, label: 'ledger import' }, context, (stores) =>
    importFolder(stores, { folder, assessment: as, author, change: randomUUID(), at: new Date().toISOString() }),
  );
  if (json) return context.output.json(imported);
  const { acknowledgement, problems, evidence } = imported;
  for (const problem of problems) context.output.line(problemLine(problem, context.output.emphasise));
  const { assessment, revision, hash } = acknowledgement;
  context.output.line(`${assessment}: revision ${revision}, hash ${hash}; ${evidence.length} files of evidence.`);
  if (problems.length > 0) context.output.line('It was taken in as it is; the problems above remain to be mended.');
};
