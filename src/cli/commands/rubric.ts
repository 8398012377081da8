import type { Problem } from '#record/problem';
import { roundedText } from '#verdict/rubric/exact-text';
import type { CapScore, CriterionEnd, CriterionScore, RubricScore } from '#verdict/rubric/score/rubric-score';
import { scoreByRubric } from '#verdict/rubric/score-by-rubric';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { laboratoryForm, laboratoryOption, requireRecord } from '../laboratory-option.ts';
import { countProblems } from '../read-folder.ts';
import { readRubricFile } from '../read-rubric-file.ts';
import { problemLine } from './check.ts';

/** Adds `unfasten rubric`: what does a house rubric say of a record, how sure is it, and what is missing? */
export const configureRubric: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--rubric <file>', 'house rubric as a YAML or JSON file (Quayside general)')
    .addOption(laboratoryOption())
    .option('--json', 'print the score with criteria, caps and explanation; {"problems": [...]} of a faulty rubric')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten rubric examples/tarn-5', 'the score by Quayside general, every criterion, and what is missing'],
        ['unfasten rubric examples/gust-2 --rubric house.yaml', 'the same by a rubric of your own'],
        ['unfasten rubric examples/tarn-5 --json', 'the same for other programs; exact figures as text'],
      ]),
    )
    .action((path: string, options: RubricOptions) => runRubric(path, options, context));
};

interface RubricOptions {
  readonly rubric?: string;
  readonly laboratory?: string;
  readonly json?: boolean;
}

const runRubric = (path: string, options: RubricOptions, context: CommandContext): void => {
  const progress = context.startProgress('rubric');
  try {
    const { rubric, problems } = readRubricFile(options.rubric);
    if (!rubric) {
      progress.stop();
      printProblems(problems, options, context);
      return;
    }
    const record = requireRecord(path, options.laboratory);
    const score = scoreByRubric({ assessment: record.assessment, rubric });
    progress.stop();
    if (options.json) context.output.json({ ...laboratoryForm(record), ...score });
    else for (const line of [...record.lines, ...scoreLines(score)]) context.output.line(line);
  } finally {
    progress.stop();
  }
};

const printProblems = (
  problems: readonly Problem[],
  { json }: RubricOptions,
  { output, finish }: CommandContext,
): void => {
  if (json) output.json({ problems, counts: countProblems(problems) });
  else for (const problem of problems) output.line(problemLine(problem, output.emphasise));
  finish(exitCodes.recordHasProblems);
};

/** The score as text: how sure it is, a line a criterion, the caps, and what is missing. */
export const scoreLines = (score: RubricScore): readonly string[] => {
  const { title, edition, date, author, invented } = score.rubric;
  const applying = score.criteria.filter(({ applies }) => applies !== 'no');
  const others = score.criteria.filter(({ applies }) => applies === 'no');
  return [
    `House rubric ${title}, edition ${edition} of ${date}, by ${author}${invented ? ' (invented)' : ''}.`,
    `${scoreWords(score)} Assessor's determination.`,
    '',
    row(['points', 'weight', 'adds', 'criterion: value']),
    ...applying.map(criterionLine),
    ...(others.length > 0 ? ['', 'Does not apply, and drops out with its weight:'] : []),
    ...others.map(({ title: name, id }) => `  ${name} (${id})`),
    ...(score.caps.length > 0 ? ['', 'Caps:', ...score.caps.map(capLine)] : []),
    ...(score.missing.length > 0 ? ['', 'Missing:'] : []),
    ...score.missing.map(({ what, remedy, address }) => `  ${what}; ${remedy} (${address})`),
  ];
};

const scoreWords = ({ state, shown, mayBeNone }: RubricScore): string => {
  if (state === 'none' || shown === undefined) return 'No score: no criterion of the rubric applies.';
  if (state === 'settled') return `Score ${shown.low} of 100, settled.`;
  return `Score ${spanOf(shown.low, shown.high)} of 100, open${mayBeNone ? '; it may be that no criterion applies' : ''}.`;
};

const row = ([points = '', weight = '', adds = '', rest = '']: readonly string[]): string =>
  `${points.padEnd(15)}${weight.padEnd(8)}${adds.padEnd(17)}${rest}`;

const criterionLine = ({ title, valueText, points, weight, applies, atLow, atHigh }: CriterionScore): string =>
  row([
    points ? spanOf(roundedText(points.low, 1), roundedText(points.high, 1)) : '',
    weight,
    spanOf(addsOf(atLow), addsOf(atHigh)),
    `${title}: ${valueText}${applies === 'open' ? '; whether it applies is open' : ''}`,
  ]);

const addsOf = (end: CriterionEnd | undefined): string => (end ? roundedText(end.contribution, 2) : 'drops out');

const spanOf = (low: string, high: string): string => (low === high ? low : `${low} to ${high}`);

const HOLDS = { yes: 'holds', no: 'does not hold', open: 'open' } as const;

const capLine = ({ title, atMost, applies, holds, valueText }: CapScore): string =>
  `  at most ${atMost}: ${title}: ${applies === 'no' ? 'does not apply' : `${HOLDS[holds]} (${valueText})`}`;
