// Writes bench/routes/problems.jsonl: for each size the first twelve seeds from 1 to 60 whose plan has 8 actions or more.
// Usage: npx tsx bench/routes/make-problems.ts          rewrites the file
//        npx tsx bench/routes/make-problems.ts --check  says whether the file is what this would write
import { readFileSync, writeFileSync } from 'node:fs';
import { compileNeutral } from '#routes/neutral/compile-neutral';
import type { NeutralProblem } from '#routes/neutral/neutral-problem';
import { solveCompiled } from '#routes/neutral/solve-compiled';
import { generatedProblem } from './generated-problem.ts';

const SIZES = [40, 60, 80, 110, 150];
const SEEDS_EACH = 12;
const HIGHEST_SEED = 60;
const LEAST_PLAN = 8;
const file = new URL('problems.jsonl', import.meta.url);

/** The best plan after a fixed number of states, the same on every machine; short plans are proved well before that. */
const planLength = (problem: NeutralProblem): number =>
  solveCompiled(compileNeutral(problem), { nodeLimit: 200 }).plan.length;

const lines = SIZES.flatMap((size) => {
  const chosen: string[] = [];
  for (let seed = 1; seed <= HIGHEST_SEED && chosen.length < SEEDS_EACH; seed++) {
    const problem = generatedProblem(seed, size);
    if (planLength(problem) >= LEAST_PLAN) chosen.push(JSON.stringify({ size, seed, problem }));
  }
  return chosen;
});
const text = `${lines.join('\n')}\n`;
if (!process.argv.includes('--check')) writeFileSync(file, text);
else {
  const same = readFileSync(file, 'utf8') === text;
  console.log(same ? 'problems.jsonl is up to date' : 'problems.jsonl differs');
  process.exit(same ? 0 : 1);
}
