import { backupFolder } from '#store/backup-folder';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { dataOption, withLedger } from '../ledger-stores.ts';
import { makeFolder } from '../make-folder.ts';

/** Adds `unfasten ledger backup`: copies ledger and evidence, also while the application writes. */
export const configureLedgerBackup: ConfigureCommand = (command, context) => {
  command
    .requiredOption(...dataOption)
    .requiredOption('--to <folder>', 'folder for the copy: new, or an earlier backup')
    .option('--json', 'print {"file", "verification", "evidence"}')
    .addHelpText(
      'after',
      examplesText([
        [
          'unfasten ledger backup --to /media/stick/bench --data bench-data',
          'copies, then walks the chains of the copy',
        ],
        ['unfasten ledger verify --data /media/stick/bench', 'a backup is a data folder like any other'],
      ]),
    )
    .action((options: BackupOptions) => runBackup(options, context));
};

interface BackupOptions {
  readonly data: string;
  readonly to: string;
  readonly json?: boolean;
}

const runBackup = async ({ data, to, json }: BackupOptions, context: CommandContext): Promise<void> => {
  const backup = await withLedger({ data, readOnly: true, label: 'ledger backup' }, context, (stores) => {
    makeFolder(to);
    return backupFolder(stores, to);
  });
  const { verification, evidence, file } = backup;
  if (!verification.sound) context.finish(exitCodes.recordHasProblems);
  if (json) return context.output.json(backup);
  const { assessments, changes, sound } = verification;
  context.output.line(`${file}: ${assessments} assessments, ${changes} changes.`);
  context.output.line(`Evidence: ${evidence.copied} files copied, ${evidence.present} were there.`);
  context.output.line(sound ? 'The copy holds.' : 'The copy does NOT hold: run `unfasten ledger verify` on both.');
};
