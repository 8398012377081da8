import { createHash } from 'node:crypto';
import { dirname } from 'node:path';
import { UnfastenError } from '#quantity/unfasten-error';
import { renderRescoringCsv } from '#report/rescoring/rescoring-csv';
import { renderRescoringJson } from '#report/rescoring/rescoring-json';
import { renderRescoringPage } from '#report/rescoring/rescoring-page';
import { criterionText, placeText, scoreText, splitText } from '#report/rescoring/rescoring-words';
import type { Rescoring } from '#verdict/rescore/rescoring';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { laboratoryOption, requireLaboratory } from '../laboratory-option.ts';
import { makeFolder } from '../make-folder.ts';
import { requireRubric } from '../read-rubric-file.ts';
import { type ArchiveRun, type RunState, rescoreArchive } from '../rescore/rescore-archive.ts';
import { wholeNumberOption } from '../whole-number-option.ts';
import { writeFileWhole } from '../write-file-whole.ts';

/** Adds `unfasten rescore`: how do the scores of a whole archive change under another rubric or other facts, and why? */
export const configureRescore: ConfigureCommand = (command, context) => {
  command
    .argument('<archive>', 'folder of assessments: folders, YAML and JSON files, at any depth')
    .option('--rubric <file>', 'house rubric after the change (Quayside general)')
    .option('--against <file>', 'house rubric before the change (the same as after with --then, else Quayside general)')
    .addOption(laboratoryOption())
    .option('--then <archive>', 'second archive: the same records at a later state of their facts')
    .option('--out <folder>', 'folder in which results and facts are kept from run to run', 'out/rescore')
    .option('--json [file]', 'write everything as JSON, exact figures as text; without a file to standard output')
    .option('--csv <file>', 'write a table for spreadsheets')
    .option('--report <file>', 'write an HTML page')
    .option('--criteria', 'split what each criterion adds and what caps take, too; slower')
    .option('--workers <n>', 'threads to work in, at most 16', wholeNumberOption, 2)
    .addHelpText(
      'after',
      examplesText([
        [
          'unfasten rescore examples --rubric house-2.yaml --against house-1.yaml',
          'old and new score, places, and why',
        ],
        [
          'unfasten rescore archive --rubric house.yaml --then archive-firmware-3',
          'the same rubric, facts of a later state',
        ],
        [
          'unfasten rescore archive --rubric house.yaml --report change.html --csv change.csv',
          'the same as page and table',
        ],
      ]),
    )
    .action((archive: string, options: RescoreOptions) => runRescore(archive, options, context));
};

interface RescoreOptions {
  readonly rubric?: string;
  readonly against?: string;
  readonly laboratory?: string;
  readonly then?: string;
  readonly out: string;
  readonly json?: string | true;
  readonly csv?: string;
  readonly report?: string;
  readonly criteria?: boolean;
  readonly workers: number;
}

const MOST_WORKERS = 16;

const runRescore = async (archive: string, options: RescoreOptions, context: CommandContext): Promise<void> => {
  if (options.workers > MOST_WORKERS)
    throw new UnfastenError('usage', 'Too many workers', {
      where: '--workers',
      value: options.workers,
      remedy: `Write ${MOST_WORKERS} or fewer.`,
    });
  const after = requireRubric(options.rubric);
  const before = options.against === undefined && options.then !== undefined ? after : requireRubric(options.against);
  const laboratory = requireLaboratory(options.laboratory);
  for (const file of [options.json, options.csv, options.report])
    if (typeof file === 'string') makeFolder(dirname(file));
  const progress = context.startProgress('rescore');
  const startedAt = context.now();
  try {
    const { then, out, workers, criteria = false } = options;
    const run = await rescoreArchive(
      { archive, ...(then ? { then } : {}), before, after, laboratory, byCriterion: criteria, out, workers },
      (state) => progress.update(stateText(state, (context.now() - startedAt) / 1000)),
    );
    progress.stop();
    try {
      write(run, options, context);
    } finally {
      run.close();
    }
    if (run.rescoring.failed.length > 0) context.finish(exitCodes.recordHasProblems);
  } finally {
    progress.stop();
  }
};

/** Results that were there already say nothing of the rate. */
const stateText = ({ done, total, known, failed }: RunState, seconds: number): string => {
  const rate = (done - known) / Math.max(seconds, 0.001);
  const left =
    rate > 0 ? `, ${rate.toFixed(rate < 10 ? 1 : 0)} a second, about ${Math.ceil((total - done) / rate)} s left` : '';
  return `${done} of ${total}${left}${known > 0 ? `, ${known} kept` : ''}${failed > 0 ? `, ${failed} with problems` : ''}`;
};

const write = (
  { rescoring, known, otherMethod }: ArchiveRun,
  options: RescoreOptions,
  { output }: CommandContext,
): void => {
  const files: readonly (readonly [file: string | undefined, text: () => string | Iterable<string>])[] = [
    [typeof options.json === 'string' ? options.json : undefined, () => renderRescoringJson(rescoring)],
    [options.csv, () => renderRescoringCsv(rescoring)],
    [options.report, () => renderRescoringPage(rescoring, { sha256Base64 })],
  ];
  for (const [file, text] of files) {
    if (file === undefined) continue;
    writeFileWhole(file, text());
  }
  if (options.json === true) for (const piece of renderRescoringJson(rescoring)) output.write(piece);
  else {
    for (const line of rescoringLines(rescoring)) output.line(line);
    for (const [file] of files) if (file !== undefined) output.line(`Written: ${file}`);
  }
  if (known > 0) output.note(`${known} results were there from an earlier run.`);
  if (otherMethod > 0)
    output.note(`${otherMethod} kept results are of another version of the method; they were not used.`);
};

const sha256Base64 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('base64');

/** A rescoring as lines, one after the other: a line a record with its scores and places, one with the parts of the change, then what failed. */
function* rescoringLines(rescoring: Rescoring): Generator<string, void> {
  const { items, failed, onlyBefore, onlyAfter, before, after, readBy, method } = rescoring;
  yield `Before: ${before.title}, edition ${before.edition} of ${before.date}. After: ${after.title}, edition ${after.edition} of ${after.date}.`;
  if (readBy)
    yield `Readings of the laboratory ${readBy.name} (edition ${readBy.edition}) hold where a record chooses none.`;
  yield "Assessor's determination. A place counts from the highest score, among these records only.";
  yield `All of it by method ${method}.`;
  yield '';
  for (const item of items) {
    yield `${item.item} (${item.product}): ${scoreText(item.before)} → ${scoreText(item.after)}; place ${placeText(item.placeBefore)} → ${placeText(item.placeAfter)}`;
    for (const line of splitText(item)) yield `  ${line}`;
    for (const line of criterionText(item)) yield `    ${line}`;
  }
  if (failed.length > 0) yield* ['', 'Not scored:'];
  for (const { item, where, message, remedy } of failed) yield `  ${item}: ${where}: ${message}. ${remedy}`;
  yield* onlyLines('Only in the first archive:', onlyBefore);
  yield* onlyLines('Only in the second archive:', onlyAfter);
}

const onlyLines = (head: string, items: readonly string[]): readonly string[] =>
  items.length === 0 ? [] : ['', head, ...items.map((item) => `  ${item}`)];
