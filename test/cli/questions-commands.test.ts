// Runs in this process, so that the sources are tested, not a bundle. One small record of a score sheet, since questions and
// ends of a whole teardown are tested beside the engine.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { stringify } from 'yaml';
import { scoreSheetX } from '../records/score-sheet-x.ts';
import { runInProcess } from './run-in-process.ts';

const root = mkdtempSync(join(tmpdir(), 'unfasten-questions-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const YEARS = 'supply/software/functionality/years';
const REMOTE = 'product/scoreSheet/parts/battery/remoteActions';
/** A line as somebody wrote it by hand, in braces and with a remark. */
const FUNCTIONALITY =
  '    functionality: { years: 7, standing: announced, source: press text, evidence: [ sheet ] } # by word of mouth\n';

/** A folder with two open facts, comments all over, and one piece of evidence. */
const folder = (): { readonly path: string; readonly text: () => string } => {
  const path = mkdtempSync(join(root, 'folder-'));
  const record = scoreSheetX({
    parts: { battery: { steps: 8, fastener: 'resupplied', tool: 'basic', remoteActions: undefined } },
  });
  const evidence = { sheet: { kind: 'document' }, terms: { kind: 'document' } };
  const expectations = { usual: { name: 'What is announced holds', assumes: ['announced-holds'] } };
  const plain = stringify({ ...record, evidence, expectations });
  const software = / {4}functionality:\n {6}years: 7\n {6}standing: established\n/;
  const text = `# Written by hand\n${plain}# the end\n`.replace(software, FUNCTIONALITY);
  expect(text).toContain(FUNCTIONALITY);
  const file = join(path, 'assessment.yaml');
  writeFileSync(file, text.replace('supply:\n', '\n# What is sold, and to whom\nsupply:\n'));
  return { path, text: () => readFileSync(file, 'utf8') };
};

const { path: kept } = folder();

test('unfasten questions ranks what is open and says what each answer would leave', async () => {
  const { code, out, err } = await runInProcess(['questions', kept]);
  expect([code, err]).toEqual([0, '']);
  expect(out).toContain('On the basis declared now: class C, R 2.5850 to 3.3350, or not scorable.\n');
  expect(out).toMatch(
    /\n1\. for how many years .*\n {3}to settle it: .*\n {3}about 10 min; narrows R by at least 0\.\d{4}/,
  );
  expect(out).toMatch(/\n {3}leaves class C, R \d\.\d{4} to \d\.\d{4}:\n {5}7: seven years or more\n/);
  expect(out).toContain(`\n   question: ${YEARS}\n`);
});

test('unfasten questions --top leaves the rest out and says so; --basis takes a basis the record has', async () => {
  const one = await runInProcess(['questions', kept, '--top', '1', '--basis', 'declared']);
  expect(one.out).toMatch(/\n1 more without --top\.\n$/);
  const { out } = await runInProcess(['questions', kept, '--basis', 'observed']);
  expect(out).toContain('The record holds nothing on this basis');
  const wrong = await runInProcess(['questions', kept, '--basis', 'seen']);
  expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('Write one of best, observed, declared.')]);
});

/** Odds as a file beside the folders. */
const oddsFile = (questions: string): string => {
  const file = join(mkdtempSync(join(root, 'odds-')), 'odds.yaml');
  writeFileSync(file, `format: unfasten/odds\nversion: 1\nby: M. R.\nreason: as last year\nquestions:\n${questions}`);
  return file;
};

test('unfasten questions --odds says what answers are worth by them, and whose they are', async () => {
  const years = `  ${YEARS}: { 7: 1, 6: 1, 5: "1/2", less: 0.5 }\n`;
  const odds = oddsFile(`${years}  ${REMOTE}: { 0: 9, 1: 0.5, 2: 0.5 }\n`);
  const { code, out, err } = await runInProcess(['questions', kept, '--odds', odds]);
  expect([code, err]).toEqual([0, '']);
  expect(out).toContain(
    '\nAmong equals by the odds of M. R. (as last year), taken to be independent; they are no findings.\n',
  );
  // Seven, six and five years leave class C for sure; fewer may leave the product off the scale.
  expect(out).toMatch(/\nBy them the best letter to state now holds with a chance of at least 83\.3 %;/);
  expect(out).toMatch(/\n {3}by the odds: the best letter to state .*; narrows R by 0\.\d{4} in the mean\n/);
  const { out: json } = await runInProcess(['questions', kept, '--odds', odds, '--json']);
  expect(JSON.parse(json)).toMatchObject({ odds: { by: 'M. R.', reason: 'as last year' }, withOdds: { now: '5/6' } });
});

test.each([
  [`  ${YEARS}: { 7: 1, 6: 1, 5: 1 }\n`, /odds\.yaml:6:\d+ questions\/.*given no weight: less/],
  [`  ${YEARS}: { 7: 1, 6: 1, 5: 1, lesser: 1, less: 1 }\n`, /none of the answers.*Did you mean "less"\?/],
  [`  ${YEARS}: { 7: 0, 6: 0, 5: 0, less: 0 }\n`, /every answer of the question is given the weight 0/],
  [
    '  supply/software/functionalty/years: { 7: 1 }\n',
    /no open question.*Did you mean "supply\/software\/functionality/,
  ],
  [`  ${YEARS}: { 7: -1, 6: 1, 5: 1, less: 1 }\n`, /odds\.yaml:6:\d+ questions\/.*\/7/],
])('unfasten questions --odds refuses %s where it stands', async (questions, told) => {
  const { code, err } = await runInProcess(['questions', kept, '--odds', oddsFile(questions)]);
  expect([code, err]).toEqual([1, expect.stringMatching(told)]);
});

test('unfasten bounds gives both ends with their class, the expectation, and the answers behind an end when asked', async () => {
  const { code, out } = await runInProcess(['bounds', kept]);
  expect(code).toBe(0);
  expect(out).toMatch(
    /\n {2}Index R, lowest +2\.\d{4}, class C, exact\n {2}Index R, highest +3\.3350, class C, exact\n/,
  );
  expect(out).toMatch(/\n {2}Fasteners \(SF\) +3\.50, nothing open moves it\n/);
  expect(out).toMatch(/\n {2}If what is announced holds: class C, R .* to 3\.3350; else class .*\.\n/);
  const { out: told } = await runInProcess(['bounds', kept, '--witness']);
  expect(told).toContain(`besides the declared steps: 2 [${REMOTE} = 2]\n`);
});

test('unfasten bounds --flips says which fewest answers settle another letter', async () => {
  const { out } = await runInProcess(['bounds', kept, '--flips', '--json']);
  const [declared] = (JSON.parse(out) as { readonly flips: readonly Record<string, unknown>[] }).flips;
  // Everything open leaves class C, so that the sets are those which leave nothing else possible, not scorable included.
  expect(declared).toMatchObject({ basis: 'declared', completeTo: 3 });
  const sets = declared?.sets as readonly {
    letter: string;
    answers: readonly { question: string; answer: string }[];
  }[];
  const ids = sets.map(({ letter, answers }) => [
    letter,
    ...answers.map(({ question, answer }) => `${question}=${answer}`),
  ]);
  expect(ids).toEqual(['7', '6', '5'].map((years) => ['C', `${YEARS}=${years}`]));
  const { out: told } = await runInProcess(['bounds', kept, '--flips']);
  expect(told).toContain('\n  class C, whatever the rest, if for how many years after the last unit');
});

test('unfasten questions and bounds of a product out of scope say by which article, and end with code 1', async () => {
  const gust = fileURLToPath(new URL('../../examples/gust-2', import.meta.url));
  for (const command of ['questions', 'bounds']) {
    const { code, out } = await runInProcess([command, gust]);
    expect([code, out]).toEqual([1, expect.stringMatching(/^Out of scope: .*Article 1\)\.\n$/)]);
  }
});

test('unfasten answer writes the fact with who, when and evidence, and leaves every other byte as it was', async () => {
  const { path, text } = folder();
  const before = text();
  const given = ['--by', 'M. R.', '--on', '2026-10-07', '--evidence', 'terms', '--note', 'paragraph 4'];
  const { code, out, err } = await runInProcess(['answer', path, YEARS, '7', ...given]);
  expect([code, err]).toEqual([0, '']);
  expect(out).toContain(
    'took the place of what was said at supply/software/functionality: press text; evidence sheet\n',
  );
  expect(out).toMatch(/\ndeclared: class .*, R 2\.\d{4} to 3\.3350.* -> class C, R \d\.\d{4} to 3\.3350\n$/);
  const written =
    '    functionality: { years: 7, standing: established, source: M. R., date: 2026-10-07, evidence: [ terms ], note: paragraph 4 } # by word of mouth\n';
  expect(text()).toBe(before.replace(FUNCTIONALITY, written));
  expect((await runInProcess(['check', path])).code).toBe(0);
});

test('unfasten answer of a fact without a place for its source says who and when in the notes', async () => {
  const { path, text } = folder();
  const before = text();
  const { out } = await runInProcess(['answer', path, REMOTE, '0', '--by', 'M. R.', '--on', '2026-10-07', '--json']);
  expect(JSON.parse(out)).toMatchObject({
    question: REMOTE,
    answer: '0',
    replaced: [],
    after: [{ basis: 'declared' }],
  });
  expect(text()).toContain(
    `notes:\n  answer-product-scoreSheet-parts-battery-remoteActions:\n    text: "${REMOTE}: 0. Answered on 2026-10-07."\n    by: M. R.\n`,
  );
  const added = /( {8}remoteActions: 0\n)( {6}display:)/;
  const note = /notes:\n(?: {2}.*\n)+/;
  expect(text().replace(added, '$2').replace(note, '')).toBe(before);
  expect((await runInProcess(['check', path])).code).toBe(0);
  const again = await runInProcess(['answer', path, REMOTE, '0', '--by', 'M. R.']);
  expect([again.code, again.err]).toEqual([2, expect.stringContaining('There is no such open question')]);
});

test.each([
  [['supply/software/functionalty/years', '7', '--by', 'M. R.'], `Did you mean "${YEARS}"?`],
  [[YEARS, 'lesser', '--by', 'M. R.'], 'Did you mean "less"?'],
  [[YEARS, '12', '--by', 'M. R.'], 'Write one of: 7, 6, 5, less.'],
  [[YEARS, '7', '--by', 'M. R.', '--evidence', 'term'], 'Did you mean "terms"?'],
  [[YEARS, '7', '--by', 'M. R.', '--on', '2026-02-30'], 'Write year, month and day'],
  [[YEARS, '7', '--by', ' '], 'Say who found it.'],
  [[YEARS, '7'], "required option '--by <name>' not specified"],
])('unfasten answer refuses %j, says what was meant, and writes nothing', async (argv, said) => {
  const { path, text } = folder();
  const before = text();
  const { code, err } = await runInProcess(['answer', path, ...argv]);
  expect([code, err]).toEqual([2, expect.stringContaining(said)]);
  expect(text()).toBe(before);
});
