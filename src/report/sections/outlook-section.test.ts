import { expect, test } from 'vitest';
import { fixtureOutlook } from '../../../test/fixtures/outlook.ts';
import { fixtureVerdict } from '../../../test/fixtures/verdict.ts';
import { renderReport } from '../render-report.ts';

const tools = { sha256Base64: () => 'x' };
const text = renderReport(fixtureVerdict, tools, { outlook: fixtureOutlook });
const plain = text.replace(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ');

test('the report says of each end whether it is exact, by which answers, and why a bound is none better', () => {
  expect(plain).toContain(
    'Index R 3.0150 class C for how many years updates are guaranteed: less than five years exact',
  );
  expect(plain).toContain('3.4100 class B as it stands bound; answers found lead to 3.3350, 0.0750 short of it');
  expect(plain).toContain('no list of answers covers in which class the foil is left');
  expect(plain).toContain('If parts come as listed: class C, R 3.1850 to 3.3350; else class B or C');
});

test('the report puts answers that come to the same on one line, and says what the question narrows', () => {
  expect(text).toMatch(
    /<p>.*seven years or more.*<\/p><p>.*six years.*<\/p><\/td><td>class B or C, R 3\.2000 to 3\.4100</,
  );
  expect(plain).toContain('about 10 min; narrows R by at least 0.3000');
});

test('the ruler of the report has the stretch on the expectation and marks what closes each end; without an outlook neither', () => {
  const rulers = (report: string) => report.match(/<svg class="rule"[\s\S]*?<\/svg>/g) ?? [];
  const withOutlook = rulers(text);
  expect(
    withOutlook.map((svg) => ['expected', 'exact', 'bound'].map((name) => svg.split(`class="${name}"`).length - 1)),
  ).toEqual(withOutlook.map(() => [1, 1, 1]));
  const bare = renderReport(fixtureVerdict, tools);
  expect(rulers(bare).join('')).not.toMatch(/class="(?:expected|exact|bound)"/);
  expect(bare).not.toContain('id="outlook"');
});

test('the report escapes what a record says of its questions', () => {
  const [question] = fixtureOutlook.questions;
  if (!question) throw new Error('no question');
  const hostile = { ...fixtureOutlook, questions: [{ ...question, asks: ['<script>alert(1)</script>'] }] };
  const report = renderReport(fixtureVerdict, tools, { outlook: hostile });
  expect(report).not.toContain('<script>');
  expect(report).toContain('&lt;script&gt;alert(1)');
});
