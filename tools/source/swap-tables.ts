import { seededNumbers } from '#quantity/seeded-numbers';
import type { Allowed } from '#swaps/signature/allowed';
import { MATRIX_COLUMNS, signatureMatrix } from '#swaps/signature/signature-matrix';
import type { Strays } from '#swaps/simulate/answer-run';
import { type AssumptionRates, assumptionRates } from '#swaps/simulate/assumption-rates';

/** The page that holds the tables. */
export const SWAP_PAGE = 'docs/method/swap-diagnosis.md';

/** How many simulated devices of four parts stand behind each row of the table of rates; device n has the seed n. */
export const RATE_DEVICES = 500;

const WORDS: Readonly<Record<string, string>> = {
  passed: 'passed',
  reduced: 'by degree',
  'reduced,failed': 'failed',
  'passed,reduced': 'passed or by degree',
  'passed,reduced,failed': 'either',
};

/** How does the signature matrix read as a Markdown table? `failed` is outright or by degree. */
export const matrixTable = (): string => {
  const head = ['explanation', ...MATRIX_COLUMNS.map(({ label }) => label)];
  const cell = (allowed: Allowed): string => WORDS[allowed.join()] ?? '';
  const rows = signatureMatrix().map(({ label, allowed }) => [label, ...allowed.map(cell)]);
  return tableOf(head, rows);
};

type Case = readonly [what: string, isTogether: boolean, strays: Strays];

const CASES: readonly Case[] = [
  ['nothing, each part alone', false, {}],
  ['nothing, all parts together', true, {}],
  ['masking: what E6 hides is taken down as clean, all parts together', true, { masksUnnoticed: true }],
  ['two of the four parts fail only together, all parts together', true, { interacting: ['camera', 'speaker'] }],
  ['the same, each part alone', false, { interacting: ['camera', 'speaker'] }],
  ['flaky functions: 1 % of runs fail for no reason', false, { flaky: 0.01 }],
  ['flaky functions: 5 %', false, { flaky: 0.05 }],
  ['test error: 1 % of runs misread', false, { testError: 0.01 }],
  ['test error: 5 %', false, { testError: 0.05 }],
];

/** How does the table of wrong decisions read, one row an assumption broken? Percent of the parts diagnosed. */
export const ratesTable = (devices: number): string => {
  const head = [
    'what does not hold',
    'decided rightly',
    'wrongly',
    'undecided',
    'undecided, truth excluded',
    'noticed',
  ];
  const rows = CASES.map(([what, isTogether, strays]) => {
    const rates = assumptionRates({ devices, isTogether, strays, randomOf: seededNumbers });
    const share = (count: keyof AssumptionRates): string => `${((100 * rates[count]) / rates.parts).toFixed(1)} %`;
    return [what, share('right'), share('wrong'), share('open'), share('lost'), share('noticed')];
  });
  return tableOf(head, rows);
};

const tableOf = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');

/** The page with a table put between its marks: `<!-- table: NAME -->` and `<!-- end: NAME -->`. */
export const withTable = (page: string, name: string, table: string): string => {
  const [begin, end] = [`<!-- table: ${name} -->`, `<!-- end: ${name} -->`];
  const [from, to] = [page.indexOf(begin), page.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`${SWAP_PAGE} has no marks for the table ${name}`);
  return `${page.slice(0, from + begin.length)}\n\n${table}\n\n${page.slice(to)}`;
};
