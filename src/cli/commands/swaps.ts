import { addCommand } from '../add-command.ts';
import { type ConfigureCommand, examplesText } from '../command-context.ts';
import { configureSwapsDiagnose } from './swaps-diagnose.ts';
import { configureSwapsNext } from './swaps-next.ts';
import { configureSwapsPlan } from './swaps-plan.ts';
import { configureSwapsSimulate } from './swaps-simulate.ts';

const parts: readonly (readonly [name: string, summary: string, configure: ConfigureCommand])[] = [
  [
    'plan',
    'say which runs tell the explanations apart in the least bench time, and what stays undecided',
    configureSwapsPlan,
  ],
  ['next', 'say which run to make next after those on record', configureSwapsNext],
  [
    'diagnose',
    'say what the software makes of each part swapped, what stands, and which runs exclude the rest',
    configureSwapsDiagnose,
  ],
  [
    'simulate',
    'play the plan on a device with a hidden truth, and say whether the diagnosis named it',
    configureSwapsSimulate,
  ],
];

/** Adds `unfasten swaps …`: which parts does the software refuse, why, and which run would tell? */
export const configureSwaps: ConfigureCommand = (command, context) => {
  command.addHelpText(
    'after',
    examplesText([
      ['unfasten swaps plan examples/tarn-5', 'the run sheet for what is at hand, with its expected minutes'],
      ['unfasten swaps next examples/tarn-5', 'one run at a time, after every result'],
      ['unfasten swaps diagnose examples/tarn-5', 'what stands, what is excluded by which runs, what is left open'],
      ['unfasten swaps simulate examples/tarn-5 --seed 7', 'the same against a device that hides its truth'],
    ]),
  );
  for (const [name, summary, configure] of parts) configure(addCommand(command, name, summary), context);
};
