import { Command, CommanderError } from 'commander';
import { describeError, isUnfastenError, showValue, UnfastenError } from '#quantity/unfasten-error';
import { addCommand } from './add-command.ts';
import { type CommandContext, examplesText } from './command-context.ts';
import { type CommandEntry, commandList } from './command-list.ts';
import { type ExitCode, exitCodeOf, exitCodes } from './exit-codes.ts';
import { createOutput, type Output, type Streams } from './output.ts';
import { startProgress } from './progress.ts';

/** One call of the command line, with everything it takes from the world. */
export interface Invocation {
  /** Arguments after the program's name. */
  readonly argv: readonly string[];
  readonly version: string;
  readonly streams: Streams;
  /** Monotonic clock [ms]. */
  now(): number;
  /** The commands to choose from; the package's own by default. */
  readonly commands?: readonly CommandEntry[];
}

const description =
  'Turns the record of a bench session into a checkable repairability verdict: the shortest route to every part, ' +
  'steps counted as the law counts them, the index on three bases, and a report in which every figure walks back ' +
  'to its clause and its evidence.';

const exitCodeHelp = `

Exit codes: 0 fine, 1 the record has problems, 2 used wrongly, 3 a fault in unfasten.
Every command takes --json and has --help with examples. NO_COLOR is honoured.`;

const overviewExamples = examplesText([
  ['unfasten check examples/tarn-5', 'are there problems in the record, and where?'],
  ['unfasten index examples/tarn-5', 'which index, on which basis, how sure?'],
  ['unfasten explain examples/tarn-5 best/R', 'why is the figure what it is?'],
  ['unfasten report examples/tarn-5', 'writes the report that answers all of it'],
]);

/** Answers one command line; returns its exit code. Throws nothing: every error becomes a message and a code here. */
export async function run(invocation: Invocation): Promise<ExitCode> {
  const output = createOutput(invocation.streams);
  try {
    return await runProgram(invocation, output);
  } catch (error) {
    return reportError(asOurError(error), invocation, output);
  }
}

async function runProgram(invocation: Invocation, output: Output): Promise<ExitCode> {
  let code: ExitCode = exitCodes.fine;
  const context: CommandContext = {
    output,
    version: invocation.version,
    now: invocation.now,
    startProgress: (label) => startProgress(invocation.streams, label, invocation.now),
    finish: (ended) => {
      code = ended;
    },
  };
  const program = createProgram(invocation);
  await addCommands(program, invocation, context);
  try {
    await program.parseAsync([...invocation.argv], { from: 'user' });
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    code = error.exitCode === 0 ? exitCodes.fine : exitCodes.usedWrongly;
  }
  return code;
}

function createProgram({ version, streams }: Invocation): Command {
  const program = new Command('unfasten');
  program
    .description(description)
    .version(version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print help')
    .helpCommand('help [command]', 'print help for a command')
    .addHelpText('after', overviewExamples + exitCodeHelp)
    .showHelpAfterError('Run `unfasten --help` for the commands and `unfasten COMMAND --help` for examples.')
    .exitOverride()
    .configureOutput({
      writeOut: (text) => void streams.out.write(text),
      writeErr: (text) => void streams.err.write(text),
      getOutHelpWidth: () => Math.min(streams.out.columns ?? 100, 100),
      getErrHelpWidth: () => Math.min(streams.err.columns ?? 100, 100),
    });
  return program;
}

/** Only the command that is called is loaded; the others are names and summaries in the overview. */
async function addCommands(program: Command, invocation: Invocation, context: CommandContext): Promise<void> {
  const { argv, commands = commandList } = invocation;
  const called = argv[0] === 'help' ? argv[1] : argv[0];
  for (const entry of commands) {
    const command = addCommand(program, entry.name, entry.summary);
    if (entry.name !== called) continue;
    const configure = await entry.load();
    configure(command, context);
  }
}

const fileErrorWords: Readonly<Record<string, string>> = {
  ENOENT: 'There is no such file or folder',
  ENOTDIR: 'A part of this path is a file, not a folder',
  EISDIR: 'This is a folder, not a file',
  EACCES: 'This may not be read or written by you',
  EEXIST: 'Something else stands here',
  EPERM: 'This may not be read or written by you',
  EROFS: 'Nothing can be written here',
  ENAMETOOLONG: 'The path is longer than a path may be',
  ELOOP: 'Links go in a circle here',
  ENOSPC: 'The disk is full',
};

/** A path that cannot be opened is a wrong argument, not a fault: it gets words of its own. */
function asOurError(error: unknown): unknown {
  if (!(error instanceof Error) || !('code' in error) || !('path' in error)) return error;
  const words = fileErrorWords[String(error.code)];
  if (words === undefined) return error;
  const where = String(error.path);
  return new UnfastenError('usage', words, { where, value: where, remedy: 'Check the path and its permissions.' });
}

function reportError(error: unknown, invocation: Invocation, output: Output): ExitCode {
  const code = exitCodeOf(error);
  if (invocation.argv.includes('--json')) output.json(errorAsJson(error));
  output.note(errorParagraph(error, code));
  if (invocation.streams.environment.UNFASTEN_DEBUG === '1' && error instanceof Error) output.note(error.stack ?? '');
  return code;
}

function errorAsJson(error: unknown): unknown {
  if (isUnfastenError(error, 'out-of-scope')) return { outOfScope: error.message, article: error.details.article };
  if (!isUnfastenError(error)) return { error: { kind: 'bug', what: messageOf(error) } };
  const { where, value, remedy } = error.details;
  return { error: { kind: error.kind, what: error.message, where, value: showValue(value), remedy } };
}

function errorParagraph(error: unknown, code: ExitCode): string {
  if (isUnfastenError(error) && code !== exitCodes.ourBug) return describeError(error);
  const what = isUnfastenError(error) ? describeError(error) : messageOf(error);
  return (
    `This is a fault in unfasten, not in your record: ${what} Nothing was changed. ` +
    'Please report it with the command line and, if you may, the record; UNFASTEN_DEBUG=1 adds the technical trace.'
  );
}

function messageOf(error: unknown): string {
  return error instanceof Error ? `${error.name}: ${error.message}.` : `${String(error)}.`;
}
