import { type EvidenceVerification, verifyEvidence } from '#store/evidence/verify-evidence';
import type { Verification } from '#store/ledger';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { dataOption, withLedger } from '../ledger-stores.ts';

/** Adds `unfasten ledger verify`: does every chain hold, and does every file of evidence? */
export const configureLedgerVerify: ConfigureCommand = (command, context) => {
  command
    .requiredOption(...dataOption)
    .option('--json', 'print {"sound", "changes", "broken", "damage", "heads", "evidence"}')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten ledger verify --data bench-data', 'says for each assessment its last revision and hash'],
        ['unfasten ledger verify --data bench-data --json', 'the same for other programs'],
      ]),
    )
    .action((options: { readonly data: string; readonly json?: boolean }) => runVerify(options, context));
};

const runVerify = async (
  { data, json }: { readonly data: string; readonly json?: boolean },
  context: CommandContext,
): Promise<void> => {
  const found = await withLedger({ data, readOnly: true, label: 'ledger verify' }, context, async (stores) => ({
    ...(await stores.ledger.verify()),
    evidence: await verifyEvidence(stores.evidence, stores.ledger),
  }));
  const sound = found.sound && found.evidence.damaged.length + found.evidence.lost.length === 0;
  if (json) context.output.json({ ...found, sound });
  else printVerification(found, sound, context);
  if (!sound) context.finish(exitCodes.recordHasProblems);
};

const printVerification = (
  found: Verification & { readonly evidence: EvidenceVerification },
  sound: boolean,
  { output }: CommandContext,
): void => {
  const { damage, broken, heads, evidence, changes, assessments } = found;
  for (const line of damage) output.line(`The file is damaged: ${line}`);
  for (const { assessment, revision, what } of broken)
    output.line(`${assessment}${revision === undefined ? '' : `, revision ${revision}`}: ${what}.`);
  for (const name of evidence.damaged) output.line(`Evidence ${name}: its bytes are not those it is named by.`);
  for (const { assessment, sha256 } of evidence.lost)
    output.line(`Evidence ${sha256}: it came in with ${assessment} and is gone.`);
  for (const { assessment, sha256 } of evidence.elsewhere)
    output.line(`Evidence ${sha256}: ${assessment} names it, and it is not in this folder.`);
  for (const { assessment, revision, hash } of heads)
    output.line(`${output.emphasise(assessment, 'bold')}: holds to revision ${revision}, hash ${hash}`);
  const counts = `${assessments} assessments, ${changes} changes, ${evidence.files} files of evidence`;
  output.line(`${sound ? 'Everything holds' : 'NOT everything holds'}: ${counts}.`);
};
