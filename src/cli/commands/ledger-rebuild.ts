import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { dataOption, withLedger } from '../ledger-stores.ts';

/** Adds `unfasten ledger rebuild`: makes what follows from the changes anew. */
export const configureLedgerRebuild: ConfigureCommand = (command, context) => {
  command
    .requiredOption(...dataOption)
    .option('--json', 'print {"rebuilt": [...]}')
    .addHelpText(
      'after',
      examplesText([
        [
          'unfasten ledger rebuild --data bench-data',
          'when verify says that a kept document is not what the changes give',
        ],
      ]),
    )
    .action((options: { readonly data: string; readonly json?: boolean }) => runRebuild(options, context));
};

const runRebuild = async (
  { data, json }: { readonly data: string; readonly json?: boolean },
  context: CommandContext,
): Promise<void> => {
  const rebuilt = await withLedger({ data, readOnly: false, label: 'ledger rebuild' }, context, ({ ledger }) =>
    ledger.rebuild(),
  );
  if (json) return context.output.json({ rebuilt });
  for (const { assessment, revision } of rebuilt) context.output.line(`${assessment}: revision ${revision}`);
  context.output.line(`${rebuilt.length} documents made anew from their changes; no change was touched.`);
};
