import type { Operation } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { METHOD_VERSION } from '#schemes/eu-2023-1669/method';
import type { Ledger, StoredChange } from '#store/ledger';
import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import { readBy, withLaboratory } from '#verdict/laboratory/with-laboratory';
import { type FigureMove, indexMoves, mayMoveFigures } from '#verdict/rescore/figure-moves';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { laboratoryOption, requireLaboratory } from '../laboratory-option.ts';
import { dataOption, withLedger } from '../ledger-stores.ts';
import { wholeNumberOption } from '../whole-number-option.ts';

/** Adds `unfasten history`: what changed in an assessment, when, why, at whose hand, and which figures moved with it? */
export const configureHistory: ConfigureCommand = (command, context) => {
  command
    .argument('<assessment>', 'id of the assessment in the ledger')
    .requiredOption(...dataOption)
    .option('--last <n>', 'how many changes, counted from the newest', wholeNumberOption, 20)
    .addOption(laboratoryOption())
    .option(
      '--json',
      'print {"assessment", "method", "changes": [{"revision", "at", "author", "note", "touched", "moves"}]}',
    )
    .addHelpText(
      'after',
      examplesText([
        ['unfasten history tarn-5 --data bench-data', 'the last twenty changes, and what each did to the index'],
        ['unfasten history tarn-5 --data bench-data --last 100 --json', 'more of them, for other programs'],
      ]),
    )
    .action((assessment: string, options: HistoryOptions) => runHistory(assessment, options, context));
};

interface HistoryOptions {
  readonly data: string;
  readonly last: number;
  readonly laboratory?: string;
  readonly json?: boolean;
}

interface HistoryLine {
  readonly revision: number;
  readonly at: string;
  readonly received: string;
  readonly author: string;
  readonly note?: string;
  readonly undoes?: number;
  /** Places the patch touched, as deep as an id. */
  readonly touched: readonly string[];
  /** Figures that the change moved; absent where it touches nothing that a figure rests on. */
  readonly moves?: readonly FigureMove[];
}

const runHistory = async (assessment: string, options: HistoryOptions, context: CommandContext): Promise<void> => {
  const laboratory = requireLaboratory(options.laboratory);
  const where = { data: options.data, readOnly: true, label: 'history' };
  const changes = await withLedger(where, context, ({ ledger }) =>
    historyOf(ledger, assessment, { last: options.last, laboratory }),
  );
  if (options.json)
    context.output.json({
      assessment,
      method: METHOD_VERSION,
      ...(laboratory ? { readBy: readBy(laboratory) } : {}),
      changes,
    });
  else for (const line of [HEAD, ...heldLines(laboratory), ...changes.flatMap(historyLines)]) context.output.line(line);
};

/** A ledger keeps no figures: nothing of an older version of the method can stand beside one of this. */
const HEAD = `Every figure worked out anew from the record of its time, by method ${METHOD_VERSION}: not what was printed then.`;

interface Wanted {
  readonly last: number;
  readonly laboratory: Laboratory | undefined;
}

const heldLines = (laboratory: Laboratory | undefined): readonly string[] =>
  laboratory
    ? [
        `Readings of the laboratory ${laboratory.name} (edition ${laboratory.edition}) hold where the record chose none.`,
      ]
    : [];

const historyOf = async (
  ledger: Ledger,
  assessment: string,
  { last, laboratory }: Wanted,
): Promise<readonly HistoryLine[]> => {
  const read = (record: Assessment): Assessment => withLaboratory(record, laboratory);
  const { revision } = await ledger.head(assessment);
  const since = Math.max(0, revision - last);
  const changes = await ledger.changes(assessment, since, last);
  const lines: HistoryLine[] = [];
  let before: Assessment | undefined = since === 0 ? undefined : (await ledger.at(assessment, since)).document;
  for (const change of changes) {
    const after: Assessment = (await ledger.at(assessment, change.revision)).document;
    const touched = touchedBy(change.patch);
    const moving = before !== undefined && mayMoveFigures(touched);
    lines.push({
      ...headOf(change),
      touched,
      ...(moving && before ? { moves: indexMoves(read(before), read(after)) } : {}),
    });
    before = after;
  }
  return lines;
};

const headOf = ({ revision, at, received, author, note, undoes }: StoredChange): Omit<HistoryLine, 'touched'> => ({
  revision,
  at,
  received,
  author,
  ...(note === undefined ? {} : { note }),
  ...(undoes === undefined ? {} : { undoes }),
});

/** The first three steps of each path: collection, id and field, or what of it there is. */
const touchedBy = (patch: readonly Operation[]): readonly string[] => {
  const paths = patch.flatMap((operation) => (operation.op === 'test' ? [] : [operation.path]));
  return [...new Set(paths.map((path) => path.split('/').slice(1, 4).join('/')))].sort();
};

/** How many places of one change are named on a line; JSON names all. */
const NAMED = 6;

const historyLines = ({ revision, at, author, note, undoes, touched, moves }: HistoryLine): readonly string[] => {
  const more = touched.length > NAMED ? `, and ${touched.length - NAMED} more` : '';
  const why = note === undefined ? '' : `: ${note}`;
  const what = revision === 1 ? 'the whole record' : `${touched.slice(0, NAMED).join(', ')}${more}`;
  return [
    `${revision}  ${at}  ${author}${undoes === undefined ? '' : `, takes back ${undoes}`}${why}`,
    `    touched ${what || 'nothing'}`,
    ...(moves ?? []).map(({ basis, before, after }) => `    ${basis}: ${before} → ${after}`),
    ...(moves?.length === 0 ? ['    no figure of the index moved'] : []),
  ];
};
