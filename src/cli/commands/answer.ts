import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { invariant, UnfastenError } from '#quantity/unfasten-error';
import { applyPatch } from '#record/patch/apply-patch';
import type { Assessment } from '#record/schema/assessment';
import { day } from '#record/schema/basics';
import { unknownNameRemedy } from '#record/suggest';
import { checkAssessment } from '#record/validate/check-assessment';
import { basisWords } from '#report/words/terms';
import { writtenDocument } from '#store/folder/written-document';
import {
  answeredPatch,
  type ChosenAnswer,
  type Provenance,
  type ReplacedSource,
  replacedSources,
} from '#verdict/answering/answered-patch';
import { withLaboratory } from '#verdict/laboratory/with-laboratory';
import { questionsOf } from '#verdict/outlook/ranked-questions';
import { spanWords } from '#verdict/outlook/shown-span';
import { spansOf } from '#verdict/outlook/spans';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { laboratoryOption, requireLaboratory } from '../laboratory-option.ts';
import { requireAssessment } from '../read-folder.ts';
import { writeFileWhole } from '../write-file-whole.ts';

interface AnswerOptions {
  readonly by: string;
  readonly on?: string;
  readonly evidence: readonly string[];
  readonly note?: string;
  readonly laboratory?: string;
  readonly json?: boolean;
}

/** Adds `unfasten answer`: writes what an open question was found to be into the record, with who, when and evidence. */
export const configureAnswer: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .argument('<question>', 'id of an open question, as `unfasten questions` prints it')
    .argument('<answer>', 'id of one of its answers')
    .requiredOption('--by <name>', 'who found it')
    .option('--on <date>', 'day it was found, such as 2026-10-07 (today)')
    .option('--evidence <id>', 'evidence of the record that shows it; may be given several times', collected, [])
    .option('--note <text>', 'what else is to be said of it')
    .addOption(laboratoryOption())
    .option('--json', 'print {"file", "question", "answer", "replaced", "before", "after"}: R of every basis')
    .addHelpText(
      'after',
      examplesText([
        [
          'unfasten answer tarn-5 supply/software/functionality/years 7 --by "M. R." --evidence terms',
          'writes it into assessment.yaml, keeps the comments, and says how far R may still move',
        ],
        ['unfasten questions tarn-5', 'which questions are open, and which answers each takes'],
      ]),
    )
    .action((...given: readonly [path: string, question: string, answer: string, options: AnswerOptions]) => {
      const [path, question, answer, options] = given;
      runAnswer({ path, question, answer }, options, context);
    });
};

const collected = (value: string, before: readonly string[]): readonly string[] => [...before, value];

interface Asked {
  readonly path: string;
  readonly question: string;
  readonly answer: string;
}

const runAnswer = (asked: Asked, options: AnswerOptions, context: CommandContext): void => {
  const progress = context.startProgress('answer');
  try {
    const laboratory = requireLaboratory(options.laboratory);
    const { assessment, file } = requireAssessment(asked.path);
    // Which questions are open, and how far R may move, hang on the readings; what is written does not.
    const read = (record: Assessment): Assessment => withLaboratory(record, laboratory);
    const given = provenance(assessment, options);
    const patch = answeredPatch(assessment, chosenAnswer(read(assessment), asked), given);
    const after = answered(assessment, patch);
    const { bytes, manner } = writtenDocument(after, { name: basename(file), bytes: readFileSync(file) });
    progress.update('width');
    const widths = { before: spansOf(read(assessment)), after: spansOf(read(after)) };
    writeFileWhole(file, new TextDecoder().decode(bytes));
    progress.stop();
    const replaced = replacedSources(assessment, patch);
    const { question, answer } = asked;
    if (options.json) context.output.json({ file, question, answer, replaced, ...widths });
    else printAnswered({ file, replaced, ...widths, keepsLayout: manner === 'edited' }, context);
  } finally {
    progress.stop();
  }
};

const chosenAnswer = (assessment: Assessment, { question, answer }: Asked): ChosenAnswer => {
  const open = questionsOf(assessment);
  const found = open.get(question);
  if (!found)
    throw new UnfastenError('usage', 'There is no such open question', {
      where: '<question>',
      value: question,
      remedy: unknownNameRemedy(question, [...open.keys()], openWords([...open.keys()])),
    });
  const chosen = found.answers.find(({ id }) => id === answer);
  const ids = found.answers.map(({ id }) => id);
  if (!chosen)
    throw new UnfastenError('usage', `"${question}" has no such answer`, {
      where: '<answer>',
      value: answer,
      remedy: unknownNameRemedy(answer, ids, `Write one of: ${ids.join(', ')}.`),
    });
  return { questions: [question], says: chosen.says, patch: chosen.patch };
};

/** Questions named in a message; a record of release day has a hundred. */
const MOST_NAMED = 6;

const openWords = (ids: readonly string[]): string => {
  if (ids.length === 0) return 'No question with a list of answers is open.';
  const more =
    ids.length > MOST_NAMED ? ` and ${ids.length - MOST_NAMED} more, which \`unfasten questions\` lists` : '';
  return `Open are: ${ids.slice(0, MOST_NAMED).join(', ')}${more}.`;
};

const provenance = (assessment: Assessment, { by, on, evidence, note }: AnswerOptions): Provenance => {
  const name = by.trim();
  if (name === '') throw wrong('An answer needs a name', '--by', { value: by, remedy: 'Say who found it.' });
  if (on !== undefined && !day.safeParse(on).success)
    throw wrong('This is no day', '--on', { value: on, remedy: 'Write year, month and day, such as 2026-10-07.' });
  const known = Object.keys(assessment.evidence ?? {});
  const unknown = evidence.find((key) => !known.includes(key));
  if (unknown !== undefined)
    throw wrong('The record has no such evidence', '--evidence', {
      value: unknown,
      remedy: unknownNameRemedy(unknown, known, 'Record the evidence first, then name it here.'),
    });
  const now = new Date();
  return {
    by: name,
    ...(on === undefined ? { on: localDay(now), at: now.toISOString() } : { on }),
    evidence,
    ...(note === undefined || note.trim() === '' ? {} : { note: note.trim() }),
  };
};

const wrong = (what: string, where: string, details: { readonly value: unknown; readonly remedy: string }) =>
  new UnfastenError('usage', what, { where, ...details });

/** Sweden writes days as ISO 8601 does. */
const localDay = (now: Date): string => now.toLocaleDateString('sv-SE');

const answered = (assessment: Assessment, patch: ReturnType<typeof answeredPatch>): Assessment => {
  const applied = applyPatch(assessment, patch);
  invariant(applied.fits, 'an answer made for a record fits it', applied.fits ? '' : applied.place);
  const errors = checkAssessment(applied.document).filter(({ severity }) => severity === 'error');
  invariant(errors.length === 0, 'a record stays sound when it takes an answer', errors[0]?.message ?? '');
  return applied.document;
};

interface Written {
  readonly file: string;
  readonly replaced: readonly ReplacedSource[];
  readonly before: ReturnType<typeof spansOf>;
  readonly after: ReturnType<typeof spansOf>;
  readonly keepsLayout: boolean;
}

const printAnswered = ({ file, replaced, before, after, keepsLayout }: Written, { output }: CommandContext): void => {
  output.line(`Written into ${file}${keepsLayout ? '' : ', whose layout had to be made anew'}.`);
  for (const { place, source, date, evidence, note } of replaced) {
    const old = [source, date, evidence && `evidence ${evidence.join(', ')}`, note].filter(Boolean);
    output.line(`  took the place of what was said at ${place}: ${old.join('; ')}`);
  }
  for (const { basis, ...span } of after) {
    const old = before.find((earlier) => earlier.basis === basis);
    const now = spanWords(span);
    const was = old && spanWords(old);
    output.line(`${basisWords[basis]}: ${was === now ? `${now}, as before` : `${was ?? 'nothing'} -> ${now}`}`);
  }
};
