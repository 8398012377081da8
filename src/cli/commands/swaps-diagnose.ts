import type { Explained } from '#quantity/explained';
import { showFigure } from '#quantity/explained';
import { UnfastenError } from '#quantity/unfasten-error';
import { swapsOf } from '#verdict/swaps/swaps-of';
import type { SwapsVerdict, SwapVerdict } from '#verdict/swaps/swaps-verdict';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { predecessorOf, predecessorOption } from '../predecessor-option.ts';
import { requireAssessment } from '../read-folder.ts';
import { choiceWords } from '../swaps-options.ts';

interface DiagnoseOptions {
  readonly part?: string;
  readonly predecessor?: string;
  readonly json?: boolean;
}

/** Adds `unfasten swaps diagnose`: what does the software make of each part swapped, and why is that known? */
export const configureSwapsDiagnose: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--part <id>', 'only this part')
    .addOption(predecessorOption())
    .option(
      '--json',
      'print {"parts": [...], "table", "problems"}: explanations, excluding runs, effects, figures, gaps',
    )
    .addHelpText(
      'after',
      examplesText([
        ['unfasten swaps diagnose examples/tarn-5', 'every part swapped, with what stands and what is excluded'],
        ['unfasten swaps diagnose examples/tarn-5 --part display', 'one part'],
        ['unfasten swaps diagnose examples/tarn-5 --json', 'the same for other programs'],
      ]),
    )
    .action((path: string, options: DiagnoseOptions) => runDiagnose(path, options, context));
};

const runDiagnose = (path: string, { part, predecessor, json }: DiagnoseOptions, context: CommandContext): void => {
  const progress = context.startProgress('swaps diagnose');
  try {
    const reading = requireAssessment(path);
    const whole = swapsOf(reading.assessment, { predecessor: predecessorOf(predecessor, reading) });
    const found = whole && part !== undefined ? ofPart(whole, part) : whole;
    progress.stop();
    if (json) context.output.json(found ?? { parts: [], problems: [] });
    else for (const line of diagnosisLines(reading.assessment.product.name, found)) context.output.line(line);
  } finally {
    progress.stop();
  }
};

const ofPart = (swaps: SwapsVerdict, part: string): SwapsVerdict => {
  const parts = swaps.parts.filter((swap) => swap.part === part);
  const rows = swaps.table.rows.filter((row) => row.part === part);
  if (parts.length > 0) return { ...swaps, parts, table: { ...swaps.table, rows } };
  throw new UnfastenError('usage', 'No swap of this part is on record', {
    where: '--part',
    value: part,
    remedy: choiceWords(
      part,
      swaps.parts.map((swap) => swap.part),
    ),
  });
};

/** The diagnosis in words: part by part, then what could not be used. */
const diagnosisLines = (product: string, swaps: SwapsVerdict | undefined): readonly string[] => {
  if (swaps === undefined) return [`${product}: no swap is on record.`];
  return [
    `${product}: what the software makes of foreign parts. Observations, not legal advice.`,
    ...swaps.parts.flatMap(partLines),
    ...(swaps.problems.length === 0 ? [] : ['', 'Of the fits on record:']),
    ...swaps.problems.map(({ what, address }) => `  ${what} (${address})`),
  ];
};

const partLines = (swap: SwapVerdict): readonly string[] => [
  '',
  `${swap.name} [${swap.part}]`,
  `  ${swap.words}`,
  ...standingLines(swap),
  ...(swap.excluded.length === 0 ? [] : ['  excluded:']),
  ...swap.excluded.map(({ name, by }) => `    ${name}, by ${by.length === 0 ? 'the runs together' : runs(by)}`),
  ...(swap.moot.length === 0 ? [] : [`  does not arise: ${swap.moot.map(({ name }) => name).join(', ')}`]),
  ...swap.effects.flatMap(({ firmware, shareOfUnits, fisher }) => figureLines([shareOfUnits, fisher], firmware)),
  ...swap.acrossFirmware.map(({ words }) => `  from firmware to firmware: ${words}`),
  ...(swap.fromPredecessor ? [`  since the predecessor: ${swap.fromPredecessor.words}`] : []),
  ...(swap.gaps.length === 0 ? [] : ['  left open:']),
  ...swap.gaps.map((gap) => `    ${gap.words}${gap.runs.length === 0 ? '' : ` (${runs(gap.runs)})`}`),
];

const runs = (ids: readonly string[]): string => ids.map((id) => `swaps/${id}`).join(', ');

const standingLines = ({ standing, newestAlone }: SwapVerdict): readonly string[] => [
  ...(standing.length === 0 ? ['  standing: no single explanation agrees with every run'] : ['  standing:']),
  ...standing.map(({ name, says }) => `    ${name}: ${says}`),
  ...(newestAlone
    ? [
        `  by firmware ${newestAlone.firmware} alone: ${newestAlone.standing.map(({ name }) => name).join(', ') || 'nothing stands'}`,
      ]
    : []),
];

/** The two ends of an interval, or the two probabilities of the exact test with what each is. */
const figureWords = ({ id, value, children }: Explained): string =>
  id === 'control-against-foreign'
    ? `exact test, ${children.map((side) => `${side.label} ${showFigure(side.value)}`).join('; ')}`
    : `${showFigure(value)} (95 %)`;

const figureLines = (trees: readonly (Explained | undefined)[], firmware: string | undefined): readonly string[] =>
  trees.flatMap((tree) =>
    tree
      ? [
          `  ${tree.label}, ${firmware === undefined ? 'firmware not recorded' : `firmware ${firmware}`}: ${figureWords(tree)}`,
        ]
      : [],
  );
