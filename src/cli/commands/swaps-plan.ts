import type { Assessment } from '#record/schema/assessment';
import { EXPLANATION_WORDS } from '#swaps/model/explanation-words';
import type { SheetLine, SwapPlan } from '#swaps/plan/plan-swaps';
import type { Prospect } from '#swaps/plan/prospects';
import { MISSING_WORDS, runSheetWords } from '#verdict/swaps/run-sheet-words';
import { swapPlanOf } from '#verdict/swaps/swap-plan-of';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { requireAssessment } from '../read-folder.ts';
import { minutesOption, noBenchError, partsOption, requireBenchParts } from '../swaps-options.ts';
import { wholeNumberOption } from '../whole-number-option.ts';

interface PlanOptions {
  readonly minutes?: number;
  readonly part?: readonly string[];
  readonly seed?: number;
  readonly anew?: boolean;
  readonly json?: boolean;
}

/** Adds `unfasten swaps plan`: which runs tell the explanations apart in the least bench time? */
export const configureSwapsPlan: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--minutes <minutes>', 'bench minutes available, instead of those of the record', minutesOption)
    .option('--part <id>', 'only this part of the bench; may be given several times', partsOption)
    .option('--seed <number>', 'of the cases that the expected minutes are the mean of', wholeNumberOption)
    .option('--anew', 'as if no run had been made')
    .option(
      '--json',
      'print {"plan", "problem", "assumptions"}: run sheet, expected minutes, bound, what stays undecided',
    )
    .addHelpText(
      'after',
      examplesText([
        ['unfasten swaps plan examples/tarn-5 --anew', 'the whole run sheet for what is at hand'],
        ['unfasten swaps plan tarn-6 --minutes 240', 'what fits into an afternoon, from the runs on record on'],
        ['unfasten swaps plan examples/tarn-5 --anew --part battery --json', 'one part, for other programs'],
      ]),
    )
    .action((path: string, options: PlanOptions) => runPlan(path, options, context));
};

const runPlan = (path: string, options: PlanOptions, context: CommandContext): void => {
  const progress = context.startProgress('swaps plan');
  try {
    const { assessment } = requireAssessment(path);
    const { minutes, anew, seed } = options;
    const found = swapPlanOf(assessment, {
      minutes,
      anew,
      parts: requireBenchParts(assessment, options.part),
      limits: seed === undefined ? {} : { seed },
    });
    progress.stop();
    if (!found) throw noBenchError(path, assessment);
    if (options.json) context.output.json(found);
    else for (const line of planLines(assessment, found)) context.output.line(line);
  } finally {
    progress.stop();
  }
};

type Planned = NonNullable<ReturnType<typeof swapPlanOf>>;

const planLines = (assessment: Assessment, { plan, assumptions }: Planned): readonly string[] => [
  `${assessment.product.name}: plan of swaps.`,
  ...expectedLines(plan),
  ...(plan.lines.length === 0 ? ['No run tells more.'] : ['', 'If all goes as is likeliest:']),
  ...plan.lines.flatMap((line, index) => sheetLines(assessment, line, index + 1)),
  ...outOfTimeLines(assessment, plan),
  ...undecidedLines(assessment, plan),
  ...(assumptions.length === 0 ? [] : ['', 'Taken, not recorded:']),
  ...assumptions.map((line) => `  ${line}`),
];

const rounded = (minutes: number): string => String(Math.round(minutes));

const expectedLines = ({ expected, bound, lines }: SwapPlan): readonly string[] => {
  if (lines.length === 0) return [];
  const { minutes, standardError, open, cases } = expected;
  const proof = bound.isProvedBest
    ? 'Proved best: no plan costs less on average.'
    : `Not proved best: with undecided parts counted in, it comes to ${rounded(bound.thisMinutes)} min and no plan to less than ${rounded(bound.atLeastMinutes)} min on average.`;
  return [
    `Expected ${rounded(minutes)} ± ${rounded(standardError)} bench minutes (mean and standard error of ${cases} drawn cases); ${open.toFixed(1)} parts expected to stay undecided or tried one way only.`,
    proof,
  ];
};

const sheetLines = (
  assessment: Assessment,
  { run, untilMinutes, turns, pooled }: SheetLine,
  order: number,
): readonly string[] => {
  const { head, fits } = runSheetWords(assessment, run);
  const nameOf = (part: string): string => assessment.parts?.[part]?.name ?? part;
  return [
    `${String(order).padStart(3)}  ${head}: ${rounded(run.seconds / 60)} min, until minute ${rounded(untilMinutes)}`,
    ...fits.map((fit) => `       ${fit}`),
    ...(pooled ? [`       fitted together, each failing at ${pooled.chance.toFixed(2)} by the odds`] : []),
    ...turns.map(
      ({ part, outcome, chance, next }) =>
        `       turns off if ${nameOf(part)} ${outcome} (${chance.toFixed(2)})${next ? `: then ${runSheetWords(assessment, next).head}` : ': then nothing is open'}`,
    ),
  ];
};

const outOfTimeLines = (assessment: Assessment, { outOfTime, released }: SwapPlan): readonly string[] => [
  ...(released.some(({ afterRun }) => afterRun > 0) ? ['', 'May be used up, in this order:'] : []),
  ...released.flatMap(({ host, afterRun }) =>
    afterRun > 0 ? [`  ${assessment.specimens?.[host]?.name ?? host}, after run ${afterRun}`] : [],
  ),
  ...(outOfTime
    ? [
        `The minutes run out after run ${outOfTime.lastRun}; then still open: ${outOfTime.open.map((part) => assessment.parts?.[part]?.name ?? part).join(', ')}.`,
      ]
    : []),
];

const undecidedLines = (assessment: Assessment, { prospects, oneMoreSpecimen }: SwapPlan): readonly string[] => {
  const open = prospects.filter(({ standing }) => standing.length > 1);
  const decided = oneMoreSpecimen?.decided ?? [];
  return [
    ...(open.length === 0 ? [] : ['', 'What this bench cannot decide:']),
    ...open.map((prospect) => `  ${prospectWords(assessment, prospect)}`),
    ...(decided.length === 0 ? [] : ['One more specimen like the last would decide:']),
    ...decided.map(
      ({ part, truth }) => `  ${assessment.parts?.[part]?.name ?? part}: ${EXPLANATION_WORDS[truth].name}`,
    ),
    ...(oneMoreSpecimen?.takes
      ? [`  in about ${rounded(oneMoreSpecimen.takes.minutes)} bench minutes for these parts, from here on`]
      : []),
  ];
};

const prospectWords = (assessment: Assessment, { part, truth, standing, missing }: Prospect): string => {
  const others = standing.filter((explanation) => explanation !== truth).map((one) => EXPLANATION_WORDS[one].name);
  const lacks = missing.length === 0 ? '' : `; missing: ${missing.map((one) => MISSING_WORDS[one]).join(', ')}`;
  return `${assessment.parts?.[part]?.name ?? part}: ${EXPLANATION_WORDS[truth].name} from ${others.join(', ')}${lacks}`;
};
