import { boundReasonWords, endKindWords, objectiveWords } from '#report/words/outlook-words';
import { basisMeaning, basisWords } from '#report/words/terms';
import { type BasisFlips, flipsOf } from '#verdict/flips/flips-of';
import { type BasisOutlook, computeOutlook, type OutlookEnd, type OutlookFigure } from '#verdict/outlook/outlook';
import { spanWords } from '#verdict/outlook/shown-span';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { inScopeAssessment } from '../in-scope-assessment.ts';
import { laboratoryForm, laboratoryOption } from '../laboratory-option.ts';

interface BoundsOptions {
  readonly witness?: boolean;
  readonly flips?: boolean;
  readonly laboratory?: string;
  readonly json?: boolean;
}

/** Adds `unfasten bounds`: between which ends can the verdict still move, and is each end proved? */
export const configureBounds: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--witness', 'say the answers that lead to each end')
    .option(
      '--flips',
      'say which fewest answers would settle another letter, whatever the rest; takes minutes where much is open',
    )
    .addOption(laboratoryOption())
    .option('--json', 'print {"bases": [...]}: both ends of R and of each score, with the answers that lead there')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten bounds examples/tarn-5', 'both ends of R and of each score on every basis, exact or a bound'],
        ['unfasten bounds examples/tarn-5 --witness', 'the same with the answers that lead to each end'],
        ['unfasten bounds examples/tarn-5 --json', 'the same for other programs'],
      ]),
    )
    .action((path: string, options: BoundsOptions) => runBounds(path, options, context));
};

const runBounds = (path: string, options: BoundsOptions, context: CommandContext): void => {
  const progress = context.startProgress('bounds');
  try {
    const found = inScopeAssessment(path, options, context);
    if (!found) return;
    const { bases } = computeOutlook(found.assessment, { limit: PATIENT, questions: false });
    const flips = options.flips ? flipsOf(found.assessment) : undefined;
    progress.stop();
    if (options.json) context.output.json({ ...laboratoryForm(found.record), bases, ...(flips ? { flips } : {}) });
    else {
      const head = `${found.assessment.product.name}: how far the verdict can still move. Assessor's determination.`;
      const lines = bases.length === 0 ? [NOTHING] : bases.flatMap((basis) => basisLines(basis, options));
      const more = flips?.flatMap(flipLines) ?? [];
      for (const line of [...found.lines, head, ...lines, ...more]) context.output.line(line);
    }
  } finally {
    progress.stop();
  }
};

/** Somebody who asks for the ends alone waits longer than a screen or a report. */
const PATIENT = 900;

const NOTHING = 'The record holds nothing but a public sheet; that does not move.';

const basisLines = (basis: BasisOutlook, { witness }: BoundsOptions): readonly string[] => {
  const reason = boundReasonWords(basis);
  return [
    '',
    `${basisWords[basis.basis]} (${basisMeaning[basis.basis]})`,
    ...basis.figures.flatMap((figure) => figureLines(figure, witness)),
    ...(basis.mayBeNotScorable ? ['  It is also possible that the product is not scorable at all.'] : []),
    ...(reason === undefined ? [] : [`  ${reason}`]),
    ...basis.expectations.map((then) => `  On the expectation "${then.name}": ${spanWords(then)}.`),
    ...basis.conditional.map((sentence) => `  ${sentence}`),
  ];
};

/** Sets told of on one basis; `--json` has all. */
const MOST_SETS = 8;

/** Up to which size was every set looked at? */
const SIZE_WORDS = ['of no answers', 'of one answer', 'of up to two answers', 'of up to three answers'];

const flipLines = ({ basis, sets, completeTo }: BasisFlips): readonly string[] => {
  const looked = SIZE_WORDS[completeTo] ?? '';
  const none = completeTo === 0 ? '  None was found.' : `  No set ${looked} settles another letter.`;
  const told = sets.slice(0, MOST_SETS).map(({ letter, answers }) => {
    const words = answers.map(({ asks, says }) => `${asks}: ${says}`).join('; and ');
    return `  class ${letter}, whatever the rest, if ${words}`;
  });
  const further = sets.length > MOST_SETS ? [`  and ${sets.length - MOST_SETS} further sets (--json)`] : [];
  const cut = completeTo === 3 ? '' : '; larger ones were too many to look at all';
  const head = `${basisWords[basis]}: fewest answers that settle another letter, every set ${looked}${cut}`;
  return ['', head, ...(sets.length === 0 ? [none] : told), ...further];
};

const NAME_WIDTH = 38;

const figureLines = ({ figure, low, high }: OutlookFigure, witness = false): readonly string[] => {
  const name = objectiveWords(figure);
  if (low?.exact && high?.exact && low.bound === high.bound)
    return [`  ${name.padEnd(NAME_WIDTH)}${low.bound}${classAt(low)}, nothing open moves it`];
  return [...endLines(`${name}, lowest`, low, witness), ...endLines(`${name}, highest`, high, witness)];
};

const classAt = ({ letter }: OutlookEnd): string => (letter === undefined ? '' : `, class ${letter}`);

const endLines = (name: string, end: OutlookEnd | undefined, witness: boolean): readonly string[] => {
  if (!end) return [`  ${name.padEnd(NAME_WIDTH)}no number is possible at this end`];
  return [
    `  ${name.padEnd(NAME_WIDTH)}${end.bound}${classAt(end)}, ${endKindWords(end)}`,
    ...(witness ? witnessLines(end) : []),
  ];
};

const witnessLines = ({ witness }: OutlookEnd): readonly string[] => {
  if (!witness) return [];
  if (witness.answers.length === 0) return ['      as it stands, with nothing more answered'];
  return witness.answers.map(({ question, answer, asks, says }) => `      ${asks}: ${says} [${question} = ${answer}]`);
};
