import type { Command } from 'commander';
import type { ExitCode } from './exit-codes.ts';
import type { Output } from './output.ts';
import type { Progress } from './progress.ts';

/** What a command may use of the world besides files. */
export interface CommandContext {
  readonly output: Output;
  /** Version of this package, stamped into what commands write. */
  readonly version: string;
  /** Monotonic milliseconds; handed to searches as their clock. */
  now(): number;
  /** Opens a progress line; `stop` it in a `finally`. */
  startProgress(label: string): Progress;
  /** Ends the command with this code; without a call the code is 0. */
  finish(code: ExitCode): void;
}

/** Adds arguments, options, examples and the action to a command that already has its name and summary. */
export type ConfigureCommand = (command: Command, context: CommandContext) => void;

/** How do the worked examples at the end of a help text read? Each is a command line and what it answers. */
export function examplesText(examples: readonly (readonly [commandLine: string, answers: string])[]): string {
  const lines = examples.flatMap(([commandLine, answers]) => [`  $ ${commandLine}`, `      ${answers}`]);
  return ['', 'Examples:', ...lines].join('\n');
}
