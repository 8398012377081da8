import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import type { CommandEntry } from '#cli/command-list';
import { configureSwapsDiagnose } from '#cli/commands/swaps-diagnose';
import { run } from '#cli/run';
import type { SwapsVerdict } from '#verdict/swaps/swaps-verdict';
import { collectingStreams } from '../collecting-streams.ts';

const file = (name: string): string => fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));

// Only the one command: the planner's code, which its neighbours load, has no part in what it prints.
const commands: readonly CommandEntry[] = [
  {
    name: 'swaps',
    summary: 'swaps',
    load: async () => (command, context) => configureSwapsDiagnose(command.command('diagnose'), context),
  },
];

/** What of the answer somebody can go through by hand: the verdict of each part and the runs it rests on, without their copies. */
const digest = (json: string): string => {
  const { parts, predecessor, problems } = JSON.parse(json) as SwapsVerdict;
  const short = parts.map(({ part, words, standing, excluded, moot, ...rest }) => ({
    part,
    words,
    decided: rest.decided?.explanation ?? 'undecided',
    standing: standing.map(({ explanation }) => explanation),
    excluded: Object.fromEntries(excluded.map(({ explanation, by }) => [explanation, by.join(' ')])),
    moot: moot.map(({ explanation }) => explanation),
    setAside: rest.setAside.map((aside) => aside.run),
    acrossFirmware: rest.acrossFirmware.map((step) => step.words),
    fromPredecessor: rest.fromPredecessor?.words,
    gaps: rest.gaps.map((gap) => gap.kind),
  }));
  return `${JSON.stringify({ predecessor, parts: short, problems }, undefined, 2)}\n`;
};

// What each part was meant to be stands in by-hand.md; demo-cases.test.ts holds the program to it.
it.each(['tarn-5', 'tarn-4'])('unfasten swaps diagnose --json of %s says as expected, word for word', async (name) => {
  const collected = collectingStreams();
  const argv = ['swaps', 'diagnose', file(name), '--json'];
  expect(await run({ argv, commands, version: '0.0.0', streams: collected.streams, now: () => 0 })).toBe(0);
  const golden = file(`${name}/expected/swaps.json`);
  const changed = file(`${name}/expected/swaps-changed.json`);
  const found = digest(collected.out());
  const isSame = existsSync(golden) && found === readFileSync(golden, 'utf8');
  if (isSame) rmSync(changed, { force: true });
  else writeFileSync(changed, found);
  expect(isSame, 'compare swaps-changed.json with swaps.json in the folder').toBe(true);
});
