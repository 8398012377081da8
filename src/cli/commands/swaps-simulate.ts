import { InvalidArgumentError } from 'commander';
import { seededNumbers } from '#quantity/seeded-numbers';
import { UnfastenError } from '#quantity/unfasten-error';
import type { Assessment } from '#record/schema/assessment';
import { closestName } from '#record/suggest';
import { EXPLANATIONS, type Explanation } from '#swaps/model/explanation';
import { EXPLANATION_WORDS } from '#swaps/model/explanation-words';
import type { Strays } from '#swaps/simulate/answer-run';
import { drawnDevice } from '#verdict/swaps/drawn-device';
import { type PlayedPart, type PlayedRun, playPlan } from '#verdict/swaps/play-plan';
import { runSheetWords } from '#verdict/swaps/run-sheet-words';
import { statedProblem } from '#verdict/swaps/swap-plan-of';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { requireAssessment } from '../read-folder.ts';
import { noBenchError, partsOption, requireBenchParts } from '../swaps-options.ts';
import { wholeNumberOption } from '../whole-number-option.ts';

interface SimulateOptions {
  readonly seed: number;
  readonly part?: readonly string[];
  readonly truth?: ReadonlyMap<string, Explanation>;
  readonly masked?: boolean;
  readonly flaky?: number;
  readonly testError?: number;
  readonly json?: boolean;
}

/** Adds `unfasten swaps simulate`: does the plan find out what a device hides? */
export const configureSwapsSimulate: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file, for its bench')
    .option('--seed <number>', 'of the device and its answers: the same seed, the same runs', wholeNumberOption, 1)
    .option('--part <id>', 'only this part of the bench; may be given several times', partsOption)
    .option('--truth <part=explanation>', 'what is the matter with a part; drawn where not given', truthOption)
    .option('--masked', 'what a part that keeps the device from running hides is taken down as clean')
    .option('--flaky <chance>', 'chance that a function fails in a run for no reason', chanceOption)
    .option('--test-error <chance>', 'chance that what a part showed is misread', chanceOption)
    .option('--json', 'print {"runs": [...], "parts": [...]}: what was asked and shown, truth and diagnosis')
    .addHelpText(
      'after',
      `${examplesText([
        ['unfasten swaps simulate examples/tarn-5 --seed 7', 'run by run, and whether the diagnosis named the truth'],
        ['unfasten swaps simulate examples/tarn-5 --part battery --truth battery=pairing-latching', 'one case'],
        ['unfasten swaps simulate examples/tarn-5 --seed 7 --test-error 0.05 --json', 'with a tester who errs'],
      ])}\n\nExplanations: ${EXPLANATIONS.join(', ')}.`,
    )
    .action((path: string, options: SimulateOptions) => runSimulate(path, options, context));
};

const truthOption = (
  text: string,
  before: ReadonlyMap<string, Explanation> = new Map(),
): ReadonlyMap<string, Explanation> => {
  const [, part, name = ''] = /^([^=]+)=(.*)$/su.exec(text) ?? [];
  const explanation = EXPLANATIONS.find((one) => one === name);
  if (part !== undefined && explanation) return new Map([...before, [part, explanation]]);
  const meant = part === undefined ? undefined : closestName(name, EXPLANATIONS);
  throw new InvalidArgumentError(
    `${meant === undefined ? '' : `Did you mean "${part}=${meant}"? `}Write PART=EXPLANATION with one of: ${EXPLANATIONS.join(', ')}.`,
  );
};

const chanceOption = (text: string): number => {
  const chance = Number(text);
  if (/^[01](\.\d{1,9})?$/.test(text) && chance <= 1) return chance;
  throw new InvalidArgumentError('Write a chance from 0 to 1.');
};

const runSimulate = (path: string, options: SimulateOptions, context: CommandContext): void => {
  const progress = context.startProgress('swaps simulate');
  try {
    const { assessment } = requireAssessment(path);
    requireBenchParts(assessment, options.part);
    requireBenchParts(assessment, [...(options.truth?.keys() ?? [])], '--truth');
    const { problem } = statedProblem(assessment, { parts: options.part });
    if (problem.parts.length === 0 || problem.hosts.length === 0) throw noBenchError(path, assessment);
    const random = seededNumbers(options.seed);
    const device = drawnDevice(problem, random, { truths: heldTruths(options), strays: straysOf(options) });
    const game = playPlan({ problem, device, random });
    const runs: PlayedRun[] = [];
    let turn = game.next();
    for (; !turn.done; turn = game.next()) {
      runs.push(turn.value);
      progress.update(`run ${turn.value.order}`);
    }
    progress.stop();
    if (options.json) context.output.json({ seed: options.seed, runs, parts: turn.value });
    else for (const line of playLines(assessment, runs, turn.value)) context.output.line(line);
  } finally {
    progress.stop();
  }
};

const heldTruths = ({ truth = new Map(), part }: SimulateOptions): ReadonlyMap<string, Explanation> => {
  const outside = part && [...truth.keys()].find((id) => !part.includes(id));
  if (outside === undefined) return truth;
  throw new UnfastenError('usage', 'This part is not among those simulated', {
    where: '--truth',
    value: outside,
    remedy: `Add --part ${outside}, or leave --part out.`,
  });
};

const straysOf = ({ masked, flaky, testError }: SimulateOptions): Strays => ({
  ...(masked ? { masksUnnoticed: true } : {}),
  ...(flaky === undefined ? {} : { flaky }),
  ...(testError === undefined ? {} : { testError }),
});

const playLines = (
  assessment: Assessment,
  runs: readonly PlayedRun[],
  parts: readonly PlayedPart[],
): readonly string[] => {
  const minutes = runs.reduce((sum, { run }) => sum + run.seconds, 0) / 60;
  const count = (outcome: PlayedPart['outcome']): number => parts.filter((part) => part.outcome === outcome).length;
  return [
    `${assessment.product.name}: plan played against an invented device.`,
    ...runs.flatMap((played) => playedLines(assessment, played)),
    '',
    `${runs.length} runs, ${Math.round(minutes)} bench minutes. Truth named: ${count('named')}; undecided with the truth still standing: ${count('standing')}; missed: ${count('missed')}.`,
    ...parts.flatMap((part) => partLines(assessment, part)),
  ];
};

const playedLines = (assessment: Assessment, { order, run, shown }: PlayedRun): readonly string[] => {
  const { head, fits } = runSheetWords(assessment, run);
  return [
    `${String(order).padStart(3)}  ${head}`,
    ...fits.map((fit, index) => {
      const made = shown[index];
      return `       ${fit}: ${made?.effect ?? (made?.outcome === 'unseen' ? 'nothing seen, hidden by another part' : '')}`;
    }),
  ];
};

const OUTCOMES: Readonly<Record<PlayedPart['outcome'], string>> = {
  named: 'truth named',
  standing: 'undecided, the truth still stands',
  missed: 'the truth was excluded',
};

const partLines = (
  assessment: Assessment,
  { part, hidden, truth, diagnosis, outcome }: PlayedPart,
): readonly string[] => {
  const name = assessment.parts?.[part]?.name ?? part;
  const never =
    hidden.explanation === truth ? '' : ` (${EXPLANATION_WORDS[hidden.explanation].name}, which never showed)`;
  const gaps = outcome === 'named' ? [] : diagnosis.gaps.map(({ words }) => `    left open: ${words}`);
  const standing = diagnosis.standing.map(({ explanation }) => EXPLANATION_WORDS[explanation].name).join(', ');
  return [
    `  ${name}: ${OUTCOMES[outcome]}: ${EXPLANATION_WORDS[truth].name}${never}`,
    ...(outcome === 'named' ? [] : [`    standing: ${standing || 'nothing'}`]),
    ...gaps,
  ];
};
