// Neutral route problems: how many are proved in how long, and how HiGHS does on the same ones in the same run.
// Usage: npx tsx bench/routes/neutral.bench.ts [--seconds 10] [--highs-seconds 10] [--highs-sizes 40,60] [--sizes 40,60,…]
//        --highs-sizes none leaves the comparison out. One core, seeded problems; prints Markdown.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { parseArgs } from 'node:util';
import type { Highs } from 'highs';
import { compileNeutral } from '#routes/neutral/compile-neutral';
import type { NeutralProblem } from '#routes/neutral/neutral-problem';
import { type CompiledSolution, solveCompiled } from '#routes/neutral/solve-compiled';
import { configurationProblem } from '../../test/referee/neutral/configuration-problem.ts';
import { ceilingFan, stapler } from '../../test/referee/neutral/sequencing-instances.ts';
import { prepareForModel, sessionModel, setModel } from './highs-models.ts';

interface Item {
  readonly size: number;
  readonly seed: number;
  readonly problem: NeutralProblem;
}

interface Solved extends Item {
  readonly solution: CompiledSolution;
  /** Percent by which the best plan may lie above the optimum. */
  readonly gap: number;
}

interface HighsAnswer {
  readonly cost: number | undefined;
  readonly milliseconds: number;
}

const { values } = parseArgs({
  options: {
    seconds: { type: 'string', default: '10' },
    sizes: { type: 'string', default: '40,60,80,110,150' },
    'highs-seconds': { type: 'string', default: '10' },
    'highs-sizes': { type: 'string', default: '40,60' },
  },
});

const now = (): number => performance.now();

const readItems = (): Item[] =>
  readFileSync(new URL('problems.jsonl', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Item);

const solveItem = (item: Item, seconds: number): Solved => {
  const solution = solveCompiled(compileNeutral(item.problem), { seconds, now });
  const { cost, bound } = solution;
  return { ...item, solution, gap: cost === undefined ? 100 : (100 * (cost - bound)) / cost };
};

const quantile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;

const shown = (milliseconds: number): string =>
  milliseconds < 1000
    ? `${milliseconds.toFixed(milliseconds < 10 ? 1 : 0)} ms`
    : `${(milliseconds / 1000).toFixed(2)} s`;

const row = (name: string, solved: readonly Solved[]): string => {
  const times = solved.map(({ solution }) => solution.milliseconds).sort((a, b) => a - b);
  const within = (limit: number): number =>
    solved.filter(({ solution }) => solution.proved && solution.milliseconds <= limit).length;
  const worst = Math.max(...solved.map(({ gap }) => gap));
  const open = solved.filter(({ solution }) => !solution.proved).map(({ seed }) => seed);
  const cells = [
    name,
    solved.length,
    within(1000),
    solved.filter(({ solution }) => solution.proved).length,
    shown(quantile(times, 0.5)),
    shown(quantile(times, 0.95)),
    worst === 0 ? '0' : `${worst.toFixed(2)} %`,
    open.join(', ') || 'none',
  ];
  return `| ${cells.join(' | ')} |`;
};

const printTable = (solved: readonly Solved[], seconds: number): void => {
  console.log(
    `| actions | problems | proved in 1 s | proved in ${seconds} s | median | 95th percentile | worst gap | open seeds |`,
  );
  console.log('| --- | --- | --- | --- | --- | --- | --- | --- |');
  for (const size of new Set(solved.map((item) => item.size)))
    console.log(
      row(
        String(size),
        solved.filter((item) => item.size === size),
      ),
    );
  console.log(row('all', solved));
};

// Required, not imported: the package's types describe its CommonJS side only.
const loadHighs = createRequire(import.meta.url)('highs') as () => Promise<Highs>;

const optimumOf = (highs: Highs, text: string, seconds: number): number | undefined => {
  const options = {
    time_limit: Math.max(0.1, seconds),
    threads: 1,
    mip_rel_gap: 0,
    mip_abs_gap: 0.5,
    output_flag: false,
  };
  const answer = highs.solve(text, options);
  return answer.Status === 'Optimal' ? Math.round(answer.ObjectiveValue) : undefined;
};

/** Set model, then session model; the cost of our best plan bounds the number of sessions, which only helps HiGHS. */
const askHighs = (highs: Highs, item: Solved, seconds: number): HighsAnswer => {
  const start = now();
  const elapsed = (): number => now() - start;
  const prepared = prepareForModel(item.problem);
  const leastSet = optimumOf(highs, setModel(prepared, item.problem.target), seconds);
  const known = item.solution.cost;
  if (leastSet === undefined || known === undefined) return { cost: undefined, milliseconds: elapsed() };
  const text = sessionModel(prepared, item.problem.target, { known, leastSet });
  const cost = optimumOf(highs, text, seconds - elapsed() / 1000);
  return { cost, milliseconds: elapsed() };
};

const compare = async (solved: readonly Solved[], seconds: number): Promise<void> => {
  const highs = await loadHighs();
  const ratios: number[] = [];
  const differing: string[] = [];
  let both = 0;
  for (const item of solved) {
    const answer = askHighs(highs, item, seconds);
    if (item.solution.proved) ratios.push(answer.milliseconds / Math.max(0.01, item.solution.milliseconds));
    if (answer.cost === undefined || !item.solution.proved) continue;
    both++;
    if (answer.cost !== item.solution.cost) differing.push(`${item.size}/${item.seed}`);
  }
  ratios.sort((a, b) => a - b);
  console.log(
    `\nHiGHS (set model, then session model, ${seconds} s a problem, one thread) on ${solved.length} of these: both prove ${both}, ` +
      `same optimum on ${both - differing.length}${differing.length > 0 ? ` (differ: ${differing.join(', ')})` : ''}; HiGHS takes ` +
      `${quantile(ratios, 0.5).toFixed(0)} times as long in the median, ${quantile(ratios, 0.1).toFixed(1)} at the tenth and ` +
      `${quantile(ratios, 0.9).toFixed(0)} at the ninetieth percentile, a time-out counted as its limit.`,
  );
  if (differing.length > 0) process.exitCode = 1;
};

/** Published sequencing instances, cold and warm: all parts, each of the three objectives. */
const printInstances = (): void => {
  console.log('\n| instance | counted | changes | first run | median of 20 |\n| --- | --- | --- | --- | --- |');
  for (const [name, instance] of Object.entries({ stapler, 'ceiling fan': ceilingFan }))
    for (const counted of [
      { tool: true, direction: true },
      { tool: true, direction: false },
      { tool: false, direction: true },
    ]) {
      const problem = configurationProblem(instance, counted);
      const compiled = compileNeutral({ format: 'unfasten/route-problem', version: 1, ...problem });
      const runs = Array.from({ length: 21 }, () => solveCompiled(compiled, { now }));
      const [first, ...others] = runs.map(({ milliseconds }) => milliseconds);
      const median = quantile(
        others.sort((a, b) => a - b),
        0.5,
      );
      const what = Object.entries(counted).filter(([, yes]) => yes);
      const cells = [
        name,
        what.map(([key]) => key).join(' + '),
        (runs[0]?.cost ?? Number.NaN) / 1000,
        shown(first ?? 0),
        shown(median),
      ];
      console.log(`| ${cells.join(' | ')} |`);
    }
};

const sizesOf = (text: string): Set<number> => new Set(text === 'none' ? [] : text.split(',').map(Number));
const seconds = Number(values.seconds);
const sizes = sizesOf(values.sizes);
const items = readItems().filter(({ size }) => sizes.has(size));
// One round over the smallest warms the compiler up, as a running application is.
for (const item of items.slice(0, 12)) solveItem(item, 1);
const solved = items.map((item) => solveItem(item, seconds));
printTable(solved, seconds);
printInstances();
const compared = solved.filter(({ size }) => sizesOf(values['highs-sizes']).has(size));
if (compared.length > 0) await compare(compared, Number(values['highs-seconds']));
