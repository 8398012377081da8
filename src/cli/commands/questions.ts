import { effectGroups, narrowingWords, oddsWords, standingWords } from '#report/words/outlook-words';
import { basisWords } from '#report/words/terms';
import type { BasisName } from '#schemes/eu-2023-1669/bases/index-inputs';
import type { OutlookQuestion } from '#verdict/outlook/outlook-question';
import { type QuestionList, questionBasis, rankedQuestions } from '#verdict/outlook/ranked-questions';
import { spanWords } from '#verdict/outlook/shown-span';
import type { GivenOdds } from '#verdict/questions/read-odds';
import { basisOption } from '../basis-option.ts';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { inScopeAssessment } from '../in-scope-assessment.ts';
import { laboratoryForm, laboratoryOption } from '../laboratory-option.ts';
import { requireOdds } from '../read-odds-file.ts';
import { wholeNumberOption } from '../whole-number-option.ts';

interface QuestionsOptions {
  readonly basis?: BasisName;
  readonly top?: number;
  readonly odds?: string;
  readonly laboratory?: string;
  readonly json?: boolean;
}

/** Adds `unfasten questions`: what should be settled next, and what would each answer make of the verdict? */
export const configureQuestions: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--basis <basis>', 'whose width is to be narrowed: best, observed or declared', basisOption)
    .option('--top <count>', 'only so many, best first', wholeNumberOption)
    .option('--odds <file>', 'chances of answers as a YAML or JSON file, format unfasten/odds: they break ties')
    .addOption(laboratoryOption())
    .option('--json', 'print {"rankedBy", "now", "questions": [...]}: each with its answers as JSON patches')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten questions examples/tarn-5', 'what to ask or try, by guaranteed narrowing a minute'],
        ['unfasten questions examples/tarn-5 --basis observed --top 1', 'the first for the basis observed'],
        ['unfasten questions examples/tarn-5 --odds odds.yaml', 'also by what each answer is worth under these odds'],
        ['unfasten questions examples/tarn-5 --json', 'the same for other programs'],
      ]),
    )
    .action((path: string, options: QuestionsOptions) => runQuestions(path, options, context));
};

const runQuestions = (path: string, options: QuestionsOptions, context: CommandContext): void => {
  const progress = context.startProgress('questions');
  try {
    const found = inScopeAssessment(path, options, context);
    if (!found) return;
    const basis = questionBasis(found.assessment, options.basis);
    const odds = options.odds !== undefined && basis ? requireOdds(options.odds, basis.open) : undefined;
    const list = basis && rankedQuestions(basis, odds?.questions);
    progress.stop();
    const questions = list?.questions.slice(0, options.top) ?? [];
    if (options.json)
      context.output.json({
        ...laboratoryForm(found.record),
        ...list,
        ...(odds ? { odds: { by: odds.by, reason: odds.reason ?? null } } : {}),
        questions,
      });
    else {
      const head = `${found.assessment.product.name}: what to settle next. Assessor's determination.`;
      const lines = list ? listLines({ ...list, questions }, { all: list.questions.length, odds }) : [NOTHING];
      for (const line of [...found.lines, head, ...lines]) context.output.line(line);
    }
  } finally {
    progress.stop();
  }
};

const NOTHING = 'The record holds nothing on this basis that questions can be put to.';

const listLines = (
  { rankedBy, now, withOdds, questions }: QuestionList,
  { all, odds }: { readonly all: number; readonly odds: GivenOdds | undefined },
): readonly string[] => [
  `On the basis ${basisWords[rankedBy]} now: ${spanWords(now)}.`,
  ...(questions.length === 0
    ? ['No question with a list of answers is open; `unfasten bounds` says what none covers.']
    : ['By guaranteed narrowing of R a minute, then of steps. The minutes are assumptions.']),
  ...(odds && withOdds ? oddsLines(odds, withOdds) : []),
  ...questions.flatMap((question, index) => ['', ...questionLines(question, index + 1)]),
  ...(questions.length < all ? ['', `${all - questions.length} more without --top.`] : []),
];

const oddsLines = (
  { by, reason, questions }: GivenOdds,
  withOdds: NonNullable<QuestionList['withOdds']>,
): readonly string[] => [
  `Among equals by the odds of ${by}${reason === undefined ? '' : ` (${reason})`}, taken to be independent; they are no findings.`,
  standingWords(withOdds, Object.keys(questions).length),
];

const questionLines = (question: OutlookQuestion, place: number): readonly string[] => [
  `${place}. ${question.asks.join(' and ')}`,
  ...question.remedies.map((remedy) => `   to settle it: ${remedy}`),
  `   about ${question.minutes} min; ${narrowingWords(question)}`,
  ...oddsWords(question).map((words) => `   by the odds: ${words}`),
  ...effectGroups(question).flatMap(({ answers, leaves }) => [
    `   leaves ${spanWords(leaves)}:`,
    ...answers.map(({ answer, says }) => `     ${answer}: ${says}`),
  ]),
  ...question.ids.map((key) => `   question: ${key}`),
];
