import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from 'commander';
import { showValue } from '#quantity/unfasten-error';
import type { NeutralProblem } from '#routes/neutral/neutral-problem';
import { answerNeutral, type NeutralAnswer } from '#routes/neutral-file/neutral-answer';
import type { NeutralFault } from '#routes/neutral-file/neutral-reader';
import { parseNeutral } from '#routes/neutral-file/parse-neutral';
import { writePddl } from '#routes/pddl/write-pddl';
import { type CommandContext, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { makeFolder } from '../make-folder.ts';
import { readTextFile } from '../read-text-file.ts';
import { secondsOption } from '../seconds-option.ts';

interface SolveOptions {
  readonly json?: boolean;
  readonly seconds: number;
  readonly pddl?: string;
}

const examples = examplesText([
  ['unfasten solve problem.json', 'the cheapest sequence, its cost, and whether that is proved'],
  ['unfasten solve problem.json --seconds 60 --json', 'the same for a script, with a minute to prove it'],
  ['unfasten solve problem.json --pddl planning', 'domain.pddl and problem.pddl for a general-purpose planner'],
]);

const format = `

The file is JSON in the format unfasten/route-problem, version 1:
  {"format": "unfasten/route-problem", "version": 1,
   "tools": [{"id": "driver", "pickupSeconds": 3}],
   "actions": [{"id": "unscrew", "tool": "driver", "seconds": 8, "needs": [], "gives": ["cover loose"]}],
   "target": ["cover loose"]}`;

/** Adds `unfasten solve FILE`: the cheapest sequence of a neutral route problem, or its PDDL. */
export function configureSolve(command: Command, context: CommandContext): void {
  command
    .argument('<file>', 'route problem, JSON')
    .addOption(secondsOption())
    .option('--pddl <folder>', 'write domain.pddl and problem.pddl there instead of solving')
    .option('--json', 'print JSON')
    .addHelpText('after', examples + format)
    .action((file: string, options: SolveOptions) => {
      const reading = parseNeutral(readTextFile(file));
      if (reading.problem === undefined) printFaults(file, reading.faults, { options, context });
      else if (options.pddl === undefined) solveAndPrint(reading.problem, options, context);
      else writeFiles(reading.problem, { ...options, pddl: options.pddl }, context);
    });
}

interface Setting {
  readonly options: SolveOptions;
  readonly context: CommandContext;
}

function printFaults(file: string, faults: readonly NeutralFault[], { options, context }: Setting): void {
  const problems = faults.map(({ where, value, what, remedy }) => ({
    file,
    path: where,
    value,
    message: what,
    remedy,
  }));
  if (options.json === true) context.output.json({ problems });
  for (const { where, value, what, remedy } of faults) {
    const place = where === '' ? file : `${file}: ${where}`;
    context.output.note(`${place}: ${what} (found ${showValue(value)}). ${remedy}`);
  }
  context.finish(exitCodes.recordHasProblems);
}

function writeFiles(
  problem: NeutralProblem,
  options: SolveOptions & { pddl: string },
  { output }: CommandContext,
): void {
  const texts = writePddl(problem);
  const paths = { domain: join(options.pddl, 'domain.pddl'), problem: join(options.pddl, 'problem.pddl') };
  makeFolder(options.pddl);
  writeFileSync(paths.domain, texts.domain);
  writeFileSync(paths.problem, texts.problem);
  if (options.json === true) output.json(paths);
  else output.line(`Wrote ${paths.domain} and ${paths.problem}; costs are integer milliseconds.`);
}

function solveAndPrint(problem: NeutralProblem, options: SolveOptions, context: CommandContext): void {
  const solution = answerNeutral(problem, { seconds: options.seconds, now: context.now });
  if (options.json === true) context.output.json(solution);
  else printSolution(problem, solution, context);
}

function printSolution(problem: NeutralProblem, solution: NeutralAnswer, { output }: CommandContext): void {
  output.line(output.emphasise(headline(solution), 'bold'));
  const toolOf = new Map(problem.actions.map(({ id, tool }) => [id, tool ?? 'bare hands']));
  const width = Math.max(...problem.tools.map(({ id }) => id.length), 'bare hands'.length);
  for (const [index, id] of solution.sequence.entries()) {
    output.line(`${String(index + 1).padStart(4)}  ${(toolOf.get(id) ?? '').padEnd(width)}  ${id}`);
  }
}

function headline({ cost, proved, bound, milliseconds }: NeutralAnswer): string {
  const took = `(${Math.round(milliseconds)} ms)`;
  if (cost === null)
    return proved ? `The target cannot be reached: proved ${took}` : `No sequence found in time ${took}`;
  return proved
    ? `${cost} s, proved cheapest ${took}`
    : `${cost} s, best found; no sequence takes less than ${bound} s ${took}`;
}
