import { addCommand } from '../add-command.ts';
import { type ConfigureCommand, examplesText } from '../command-context.ts';
import { configureLedgerBackup } from './ledger-backup.ts';
import { configureLedgerExport } from './ledger-export.ts';
import { configureLedgerImport } from './ledger-import.ts';
import { configureLedgerRebuild } from './ledger-rebuild.ts';
import { configureLedgerVerify } from './ledger-verify.ts';

const parts: readonly (readonly [name: string, summary: string, configure: ConfigureCommand])[] = [
  ['verify', 'walk every chain and name the first link that does not hold', configureLedgerVerify],
  ['import', 'take an assessment folder into the ledger', configureLedgerImport],
  ['export', 'write an assessment out as a folder', configureLedgerExport],
  ['backup', 'copy ledger and evidence while they are in use', configureLedgerBackup],
  ['rebuild', 'make the kept documents anew from the changes', configureLedgerRebuild],
];

/** Adds `unfasten ledger …`: what is in the data folder, is it whole, and how does it get in and out? */
export const configureLedger: ConfigureCommand = (command, context) => {
  command.addHelpText(
    'after',
    examplesText([
      ['unfasten ledger verify --data bench-data', 'is every change there that was acknowledged?'],
      ['unfasten ledger import examples/tarn-5 --data bench-data', 'takes the folder in under the id tarn-5'],
      ['unfasten ledger export tarn-5 --out tarn-5-now --data bench-data', 'writes it out again, comments kept'],
      ['unfasten ledger backup --to /media/stick/bench --data bench-data', 'copies everything, also during a session'],
    ]),
  );
  for (const [name, summary, configure] of parts) configure(addCommand(command, name, summary), context);
};
