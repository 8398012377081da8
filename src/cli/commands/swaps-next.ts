import type { Assessment } from '#record/schema/assessment';
import { EXPLANATION_WORDS } from '#swaps/model/explanation-words';
import { runSheetWords } from '#verdict/swaps/run-sheet-words';
import { nextSwapOf } from '#verdict/swaps/swap-plan-of';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { requireAssessment } from '../read-folder.ts';
import { noBenchError, partsOption, requireBenchParts } from '../swaps-options.ts';

interface NextOptions {
  readonly part?: readonly string[];
  readonly json?: boolean;
}

/** Adds `unfasten swaps next`: which run is to be made after those on record? */
export const configureSwapsNext: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--part <id>', 'only this part of the bench; may be given several times', partsOption)
    .option('--json', 'print {"next": {"run", "standing"}, "problem", "assumptions"}')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten swaps next tarn-6', 'the specimen, its firmware, and part by part what is fitted'],
        [
          'unfasten swaps next examples/tarn-5 --part rear-camera',
          'for one part; says where nothing at hand tells more',
        ],
        ['unfasten swaps next tarn-6 --json', 'the same for other programs'],
      ]),
    )
    .action((path: string, options: NextOptions) => runNext(path, options, context));
};

const runNext = (path: string, { part, json }: NextOptions, context: CommandContext): void => {
  const progress = context.startProgress('swaps next');
  try {
    const { assessment } = requireAssessment(path);
    const found = nextSwapOf(assessment, { parts: requireBenchParts(assessment, part) });
    progress.stop();
    if (!found) throw noBenchError(path, assessment);
    if (json) context.output.json(found);
    else for (const line of nextLines(assessment, found)) context.output.line(line);
  } finally {
    progress.stop();
  }
};

type Found = NonNullable<ReturnType<typeof nextSwapOf>>;

const nextLines = (assessment: Assessment, { next, assumptions }: Found): readonly string[] => {
  const { run, standing } = next;
  const open = standing.filter(({ explanations }) => explanations.length > 1);
  const words = run && runSheetWords(assessment, run);
  const head =
    words && run
      ? [`Next run: ${words.head}, about ${Math.round(run.seconds / 60)} min.`, ...words.fits.map((fit) => `  ${fit}`)]
      : [open.length === 0 ? 'No further run: every part is decided.' : 'No further run: nothing at hand tells more.'];
  return [
    ...head,
    ...(open.length === 0 ? [] : ['Open:']),
    ...open.map(
      ({ part, explanations }) =>
        `  ${assessment.parts?.[part]?.name ?? part}: ${explanations.map((one) => EXPLANATION_WORDS[one].name).join(', ')}`,
    ),
    ...(run === undefined || assumptions.length === 0
      ? []
      : [`Taken, not recorded: ${assumptions.length} figures; --json names them.`]),
  ];
};
