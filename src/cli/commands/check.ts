import type { Problem } from '#record/problem';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { countProblems, type FolderReading, readFolder } from '../read-folder.ts';

/** Adds `unfasten check`: what is wrong in a record, and where? */
export const configureCheck: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--json', 'print {"problems": [...], "counts": {...}}')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten check examples/tarn-5', 'all problems of the folder, each with its place and what to do'],
        ['unfasten check log.json --json', 'the same for other programs'],
      ]),
    )
    .action((path: string, options: { readonly json?: boolean }) => {
      const reading = readWithProgress(path, context);
      const counts = countProblems(reading.problems);
      if (options.json) context.output.json({ problems: reading.problems, counts });
      else printProblems(reading, context);
      if (counts.errors > 0) context.finish(exitCodes.recordHasProblems);
    });
};

const readWithProgress = (path: string, { startProgress }: CommandContext): FolderReading => {
  const progress = startProgress('check');
  try {
    return readFolder(path);
  } finally {
    progress.stop();
  }
};

const printProblems = ({ file, problems }: FolderReading, { output }: CommandContext): void => {
  const lines = problems.map((problem) => problemLine(problem, output.emphasise));
  if (lines.length > 0) output.write(`${lines.join('\n')}\n\n`);
  const { errors, warnings } = countProblems(problems);
  output.line(`${file}: ${counted(errors, 'error')}, ${counted(warnings, 'warning')}.`);
};

const counted = (count: number, noun: string): string => {
  const number = count === 0 ? 'no' : String(count);
  return `${number} ${noun}${count === 1 ? '' : 's'}`;
};

/** How does a problem read in one line? `file:line:column path: what (value). What to do.` */
export const problemLine = (
  { file, line, column, path, severity, message, value, remedy }: Problem,
  emphasise: (text: string, emphasis: 'bold') => string = (text) => text,
): string => {
  const where = emphasise(printable(`${file}:${line}:${column}`), 'bold');
  const place = path === '' ? '' : ` ${path}`;
  const found = value === undefined ? '' : ` (${value})`;
  return `${where}${printable(`${place}: ${severity}: ${message}${found}. ${remedy}`)}`;
};

/** Control characters and turned writing directions of a hostile file must not reach the terminal. */
const printable = (text: string): string => text.replaceAll(UNPRINTABLE, '?');

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that are taken out
const UNPRINTABLE = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;
