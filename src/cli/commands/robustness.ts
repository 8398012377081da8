import { join } from 'node:path';
import { InvalidArgumentError, Option } from 'commander';
import { listed } from '#quantity/counts';
import { compare, type Rational, rational, times } from '#quantity/rational';
import { isUnfastenError, UnfastenError } from '#quantity/unfasten-error';
import { placeText } from '#report/rescoring/rescoring-words';
import { SPREAD_LEGEND, spreadLines } from '#report/words/spread-words';
import { groundworkOf, indexBases, readingsOf } from '#verdict/index-bases';
import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import { withLaboratory } from '#verdict/laboratory/with-laboratory';
import { lettersOf } from '#verdict/letters';
import {
  type Contender,
  MOST_CONTENDERS,
  type Robustness,
  robustnessOf,
  type Variation,
} from '#verdict/robustness/robustness';
import { DRAWING } from '#verdict/robustness/sample-scores';
import { type ScoreShares, scoreShares } from '#verdict/robustness/score-shares';
import { exactValue, shownScore } from '#verdict/rubric/exact-text';
import { rubricFacts } from '#verdict/rubric/facts/rubric-facts';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { scopeVerdict } from '#verdict/scope-verdict';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { laboratoryOption, requireLaboratory } from '../laboratory-option.ts';
import { requireAssessment } from '../read-folder.ts';
import { requireRubric } from '../read-rubric-file.ts';
import { findAssessments } from '../rescore/find-assessments.ts';
import { wholeNumberOption } from '../whole-number-option.ts';

/** Adds `unfasten robustness`: how firm are scores, places and letters when weights vary and facts are open? */
export const configureRobustness: ConfigureCommand = (command, context) => {
  command
    .argument('<archive>', 'folder of assessments: folders, YAML and JSON files, at any depth')
    .option('--rubric <file>', 'house rubric as a YAML or JSON file (Quayside general)')
    .addOption(
      new Option('--vary <share>', 'how far each weight may lie from its own, such as 10%')
        .argParser(shareOption)
        // A default without words of its own is printed as JSON, which exact numbers are not.
        .default(rational(1n, 5n), '20%'),
    )
    .option('--samples <n>', 'samples to draw, at most 100000', wholeNumberOption, 1000)
    .option('--seed <n>', 'number the samples follow from', wholeNumberOption, 1)
    .option('--spread', 'also say which weight and which open fact carries how much of the spread of each score')
    .addOption(laboratoryOption())
    .option('--json', 'print everything as JSON, exact figures as text')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten robustness examples', 'scores and places when every weight may lie 20 % higher or lower'],
        ['unfasten robustness examples --spread', 'and whose the spread of each score is; some seconds a product'],
        ['unfasten robustness archive --rubric house.yaml --vary 10% --samples 5000 --seed 7', 'the same otherwise'],
      ]),
    )
    .action((archive: string, options: RobustnessOptions) => runRobustness(archive, options, context));
};

interface RobustnessOptions {
  readonly rubric?: string;
  readonly laboratory?: string;
  readonly vary: Rational;
  readonly samples: number;
  readonly seed: number;
  readonly spread?: boolean;
  readonly json?: boolean;
}

/** Which share does a text state? Throws commander's `InvalidArgumentError` for anything but a percentage from 0 to below 100. */
export function shareOption(text: string): Rational {
  const [, number] = /^(\d{1,2}(?:\.\d{1,6})?) ?%$/.exec(text) ?? [];
  if (number !== undefined) return times(exactValue(number), rational(1n, 100n));
  throw new InvalidArgumentError('Write a percentage from 0% to below 100%, such as 20%.');
}

const MOST_SAMPLES = 100_000;

interface IndexWidth {
  readonly item: string;
  readonly basis: string;
  readonly low: string | null;
  readonly high: string | null;
  readonly letters: readonly string[];
  readonly mayBeNotScorable: boolean;
}

const runRobustness = (archive: string, options: RobustnessOptions, context: CommandContext): void => {
  const { vary, samples, seed, json } = options;
  if (options.spread && samples < 2)
    throw new UnfastenError('usage', 'One sample has no spread', {
      where: '--samples',
      value: samples,
      remedy: 'Draw 2 or more, better 1000.',
    });
  if (samples > MOST_SAMPLES) throw tooMany('--samples', samples, MOST_SAMPLES);
  const progress = context.startProgress('robustness');
  try {
    const rubric = requireRubric(options.rubric);
    const laboratory = requireLaboratory(options.laboratory);
    const { contenders, indices, failed } = readAll(archive, { rubric, laboratory }, (text) => progress.update(text));
    if (contenders.length > MOST_CONTENDERS) throw tooMany('archive', contenders.length, MOST_CONTENDERS);
    progress.update('samples');
    const variation: Variation = { vary, samples, seed };
    const found = robustnessOf(rubric, contenders, variation);
    const spreads: readonly Spread[] = (options.spread ? contenders : []).map(({ item, facts }) => {
      progress.update(`spread of ${item}`);
      return { item, spread: scoreShares(rubric, facts, variation) };
    });
    progress.stop();
    if (json)
      context.output.json({
        rubric: { id: rubric.id, edition: rubric.edition },
        ...(laboratory ? { laboratory: { id: laboratory.id, edition: laboratory.edition } } : {}),
        vary: `${percent(vary)}%`,
        samples,
        seed,
        drawing: DRAWING,
        ...found,
        ...(options.spread ? { spreads } : {}),
        index: indices,
        failed,
      });
    else {
      const shown = { rubric, laboratory, variation, indices, failed, spreads };
      for (const line of robustnessLines(found, shown)) context.output.line(line);
    }
    if (failed.length > 0) context.finish(exitCodes.recordHasProblems);
  } finally {
    progress.stop();
  }
};

const tooMany = (where: string, value: number, most: number): UnfastenError =>
  new UnfastenError('usage', 'This is more than can be treated', { where, value, remedy: `At most ${most}.` });

interface Found {
  readonly contenders: readonly Contender[];
  readonly indices: readonly IndexWidth[];
  readonly failed: readonly { readonly item: string; readonly problem: string }[];
}

interface Under {
  readonly rubric: Rubric;
  readonly laboratory: Laboratory | undefined;
}

const readAll = (archive: string, { rubric, laboratory }: Under, onItem: (text: string) => void): Found => {
  const contenders: Contender[] = [];
  const indices: IndexWidth[] = [];
  const failed: { item: string; problem: string }[] = [];
  for (const { item, path } of findAssessments(archive, join(archive, 'out'))) {
    onItem(item);
    try {
      const assessment = withLaboratory(requireAssessment(path).assessment, laboratory);
      contenders.push({ item, product: assessment.product.name, facts: rubricFacts({ assessment }, [rubric]) });
      if (scopeVerdict(assessment).inScope === false) continue;
      const readings = readingsOf(assessment);
      for (const basis of indexBases(groundworkOf(assessment), readings)) {
        const { figures, low = figures, high = figures, mayBeNotScorable } = basis;
        indices.push({
          item,
          basis: basis.basis,
          low: low.R,
          high: high.R,
          letters: lettersOf(basis, readings),
          mayBeNotScorable,
        });
      }
    } catch (error) {
      if (!isUnfastenError(error)) throw error;
      failed.push({ item, problem: `${error.details.where}: ${error.message}. ${error.details.remedy}` });
    }
  }
  return { contenders, indices, failed };
};

const percent = (vary: Rational): string => String(Number((vary.numerator * 1_000_000n) / vary.denominator) / 10_000);

interface Spread {
  readonly item: string;
  readonly spread: ScoreShares;
}

interface Shown extends Pick<Found, 'indices' | 'failed'> {
  readonly rubric: Rubric;
  readonly laboratory: Laboratory | undefined;
  readonly variation: Variation;
  readonly spreads: readonly Spread[];
}

/** How firm a ranking is, as lines that claim no more than was found. */
export const robustnessLines = (
  { items, pairs }: Robustness,
  { rubric, laboratory, variation, indices, failed, spreads }: Shown,
): readonly string[] => {
  const { vary, samples, seed } = variation;
  const open = pairs.filter(({ answer }) => answer === 'open').length;
  return [
    `House rubric ${rubric.title}, edition ${rubric.edition}. Every weight by itself up to ${percent(vary)} % below or above its own.`,
    ...(laboratory
      ? [
          `Readings of the laboratory ${laboratory.name} (edition ${laboratory.edition}) hold where a record chooses none.`,
        ]
      : []),
    "Assessor's determination. Nothing is implied about how likely a weight or a fact is.",
    '',
    ...items.flatMap(({ item, product, score, possible, drawn, first }) => [
      `${item} (${product}): ${score ? `score ${spanOf(score)} whatever the weights and open facts` : 'width of the score not decided: too much hangs together'}; no place outside ${placeText(possible)} of ${items.length}`,
      `  over ${samples} samples with seed ${seed}: rank 1 in ${first} of ${samples}, ranks ${placeText(drawn)}`,
    ]),
    '',
    `Pairs: ${pairs.filter(({ answer }) => answer === 'can').length} can score higher than the other, ${pairs.filter(({ answer }) => answer === 'cannot').length} cannot, ${open} not decided.`,
    ...pairs
      .filter(({ answer }) => answer === 'can')
      .map(
        ({ item, over, by }) =>
          `  ${item} can score higher than ${over} (${by === 'sample' ? 'seen in a sample' : 'decided exactly'})`,
      ),
    ...(spreads.length > 0 ? ['', ...SPREAD_LEGEND] : []),
    ...spreads.flatMap(({ item, spread }) => [
      `${item}, over ${samples} samples with seed ${seed}:`,
      ...spreadLines(spread, rubric),
    ]),
    ...(spreads.length > 0 ? [''] : []),
    `Samples: ${DRAWING}.`,
    ...(indices.length > 0
      ? ['', "EU repairability index, under the width of each record (weights are the law's and do not vary):"]
      : []),
    ...indices.map(indexLine),
    ...(failed.length > 0 ? ['', 'Not treated:'] : []),
    ...failed.map(({ item, problem }) => `  ${item}: ${problem}`),
  ];
};

const spanOf = (score: { readonly low: string; readonly high: string }): string => {
  const [low, high] = [exactValue(score.low), exactValue(score.high)];
  const shown = shownScore(low, high);
  return compare(low, high) === 0 ? shown.low : `${shown.low} to ${shown.high}`;
};

const indexLine = ({ item, basis, low, high, letters, mayBeNotScorable }: IndexWidth): string => {
  const R = low === high ? (low ?? 'open') : `${low ?? 'open'} to ${high ?? 'open'}`;
  const none = mayBeNotScorable ? ', or not scorable' : '';
  return `  ${item}, ${basis}: R ${R}, ${letters.length > 0 ? `class ${listed(letters, 'or')}` : 'no class'}${none}`;
};
