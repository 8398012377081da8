import { UnfastenError } from '#quantity/unfasten-error';
import type { DutyFinding } from '#schemes/duties/duty-finding';
import { DUTIES_HEADER } from '#schemes/duties/duty-words';
import { dutiesOf } from '#verdict/duties/duties-of';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { dutyRowLines } from '../duty-lines.ts';
import { laboratoryForm, laboratoryOption, requireRecord } from '../laboratory-option.ts';

interface DutiesOptions {
  readonly jurisdiction?: string;
  readonly laboratory?: string;
  readonly json?: boolean;
}

/** Adds `unfasten duties`: what does the record show of the legal duties, row by row? */
export const configureDuties: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--jurisdiction <code>', 'only the rows of one: EU, or a state, for instance US-OR')
    .addOption(laboratoryOption())
    .option(
      '--json',
      'print {"heading", "duties": [...]}: each with state, what was observed, facts, evidence, missing',
    )
    .addHelpText(
      'after',
      examplesText([
        ['unfasten duties examples/tarn-5', 'every row: met, not met, not shown, does not apply, and why'],
        ['unfasten duties examples/tarn-5 --jurisdiction EU', 'the laws of the Union only'],
        ['unfasten explain examples/tarn-5 duties/br-no-software-lock', 'one row with its source, days and readings'],
        ['unfasten duties examples/tarn-5 --json', 'the same for other programs'],
      ]),
    )
    .action((path: string, options: DutiesOptions) => runDuties(path, options, context));
};

const runDuties = (path: string, { jurisdiction, laboratory, json }: DutiesOptions, context: CommandContext): void => {
  const progress = context.startProgress('duties');
  try {
    const record = requireRecord(path, laboratory);
    const { assessment } = record;
    const all = dutiesOf(assessment);
    const duties = jurisdiction === undefined ? all : rowsOf(jurisdiction, all);
    progress.stop();
    if (json) context.output.json({ heading: DUTIES_HEADER, ...laboratoryForm(record), duties });
    else for (const line of [...record.lines, ...dutyLines(assessment.product.name, duties)]) context.output.line(line);
  } finally {
    progress.stop();
  }
};

const rowsOf = (jurisdiction: string, all: readonly DutyFinding[]): readonly DutyFinding[] => {
  const rows = all.filter((duty) => duty.jurisdiction === jurisdiction.toUpperCase());
  if (rows.length > 0) return rows;
  throw new UnfastenError('usage', 'There is no such jurisdiction in the table', {
    where: '--jurisdiction',
    value: jurisdiction,
    remedy: `Write one of ${[...new Set(all.map((duty) => duty.jurisdiction))].join(', ')}.`,
  });
};

/** The duties as a ledger: law by law, a state and a title a row, and under it what it asks and what was observed. */
const dutyLines = (product: string, duties: readonly DutyFinding[]): readonly string[] => {
  const laws = [...new Set(duties.map(({ law }) => law))];
  return [
    `${product}: legal duties. ${DUTIES_HEADER}`,
    ...laws.flatMap((law) =>
      lawLines(
        law,
        duties.filter((duty) => duty.law === law),
      ),
    ),
  ];
};

const lawLines = (law: string, duties: readonly DutyFinding[]): readonly string[] => [
  '',
  `${duties[0]?.jurisdiction ?? ''}: ${law}`,
  ...duties.flatMap(dutyRowLines),
];
