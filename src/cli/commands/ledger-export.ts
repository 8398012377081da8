import { exportFolder } from '#store/folder/export-folder';
import type { WritingManner } from '#store/folder/written-document';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { dataOption, withLedger } from '../ledger-stores.ts';
import { makeFolder } from '../make-folder.ts';
import { wholeNumberOption } from '../whole-number-option.ts';

/** Adds `unfasten ledger export`: an assessment as a folder, comments kept where the folder had them. */
export const configureLedgerExport: ConfigureCommand = (command, context) => {
  command
    .argument('<assessment>', 'id in the ledger')
    .requiredOption(...dataOption)
    .requiredOption('--out <folder>', 'folder to write into: new, or empty')
    .option('--revision <number>', 'as it stood at this revision; the last one unless said', wholeNumberOption)
    .option('--json', 'print {"file", "revision", "manner", "evidence", "renamed", "missing"}')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten ledger export tarn-5 --out tarn-5-now --data bench-data', 'writes assessment.yaml and evidence/'],
        ['unfasten ledger export tarn-5 --revision 1 --out tarn-5-first --data bench-data', 'as it was taken in'],
      ]),
    )
    .action((assessment: string, options: ExportOptions) => runExport(assessment, options, context));
};

interface ExportOptions {
  readonly data: string;
  readonly out: string;
  readonly revision?: number;
  readonly json?: boolean;
}

const manners: Readonly<Record<WritingManner, string>> = {
  'as-imported': 'byte for byte as it was imported',
  edited: 'as it was imported, only the changed places rewritten',
  rewritten: 'comments kept, but the layout made anew, since a change lay where the text could not be edited in place',
  fresh: 'written anew from its values; comments of an imported file, if any, are in the ledger only',
};

const runExport = async (assessment: string, options: ExportOptions, context: CommandContext): Promise<void> => {
  const { data, out, revision, json } = options;
  const exported = await withLedger({ data, readOnly: true, label: 'ledger export' }, context, async (stores) => {
    // An id that is none leaves no empty folder behind.
    await stores.ledger.head(assessment);
    makeFolder(out);
    return exportFolder(stores, { assessment, folder: out, ...(revision === undefined ? {} : { revision }) });
  });
  if (json) return context.output.json(exported);
  const { file, manner, evidence, renamed, missing } = exported;
  context.output.line(`${file}: revision ${exported.revision}, ${manners[manner]}.`);
  context.output.line(`Evidence: ${evidence.length} files.`);
  for (const { was, now } of renamed) context.output.line(`Written as ${now}, since another file has its name: ${was}`);
  for (const name of missing) context.output.line(`Not written, since the ledger does not hold it: ${name}`);
};
