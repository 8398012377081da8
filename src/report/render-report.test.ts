import { createHash } from 'node:crypto';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Verdict } from '#verdict/verdict';
import { emptyVerdict, hostileVerdict } from '../../test/fixtures/odd-verdicts.ts';
import { fixtureOutlook } from '../../test/fixtures/outlook.ts';
import { fixtureVerdict } from '../../test/fixtures/verdict.ts';
import { escapeText } from './html/markup.ts';
import { BOLD_WOFF2, REGULAR_WOFF2 } from './look/font-data.ts';
import { cssString } from './look/style-print.ts';
import { renderReport } from './render-report.ts';

const sha256Base64 = (text: string) => createHash('sha256').update(text, 'utf8').digest('base64');
const rendered = (verdict: Verdict) => renderReport(verdict, { sha256Base64 });
const goldenPath = new URL('../../test/fixtures/goldens/report.html', import.meta.url);
const changedPath = new URL('../../test/fixtures/goldens/report-changed.html', import.meta.url);

/** The report without what would make a golden unreadable: fonts, and the hash that follows from them. */
function normalised(report: string): string {
  return report.replace(/base64,[A-Za-z0-9+/=]+/g, 'base64,…').replace(/sha256-[A-Za-z0-9+/=]+/g, 'sha256-…');
}

test('renderReport of the fixture is the golden; a mismatch leaves a -changed twin beside it', () => {
  const text = normalised(renderReport(fixtureVerdict, { sha256Base64 }, { outlook: fixtureOutlook }));
  const golden = existsSync(goldenPath) ? readFileSync(goldenPath, 'utf8') : '';
  if (text === golden) rmSync(changedPath, { force: true });
  else writeFileSync(changedPath, text);
  expect(text === golden, 'compare report-changed.html with report.html in test/fixtures/goldens').toBe(true);
});

test('renderReport gives the same bytes for the same verdict, whatever the order of its keys', () => {
  const shuffled = Object.fromEntries(Object.entries(fixtureVerdict).reverse()) as unknown as Verdict;
  expect(rendered(structuredClone(fixtureVerdict))).toBe(rendered(fixtureVerdict));
  expect(rendered(shuffled)).toBe(rendered(fixtureVerdict));
});

test('renderReport states a policy that admits its own style and fonts and nothing else', () => {
  const report = rendered(fixtureVerdict);
  const [, style = ''] = /<style>([\s\S]*?)<\/style>/.exec(report) ?? [];
  const policy = `default-src &#39;none&#39;; style-src &#39;sha256-${sha256Base64(style)}&#39;; font-src data:; base-uri &#39;none&#39;; form-action &#39;none&#39;`;
  expect(report).toContain(policy);
  expect(report.match(/<style/g)?.length).toBe(1);
  expect(report.match(/<script|<link|<img|<iframe|\sstyle=|\son[a-z]+=|javascript:|https?:\/\//gi)).toBe(null);
});

test('renderReport leaves no text of a record outside escaping, whichever field it stands in', () => {
  const report = rendered(hostileVerdict);
  const bare = report.replace(/="[^"]*"/g, '=""');
  expect(bare.match(/<\/?script|<img|<[^>]*\sonerror/gi)).toBe(null);
  expect(report).toContain('&lt;script&gt;');
  expect(report.split('</style>').length).toBe(2);
  expect(report).toContain('🔧');
  expect(report).toContain('מסך');
  expect(report).toContain('m'.repeat(9_000));
});

test('renderReport tells each caution in full once, and by title with a link wherever it applies', () => {
  const report = rendered(fixtureVerdict);
  expect(fixtureVerdict.cautions.length).toBeGreaterThan(0);
  for (const { text, title } of fixtureVerdict.cautions) {
    const written = escapeText(text);
    expect([title, report.split(written).length - 1]).toEqual([title, 1]);
  }
  expect(report.match(/In full before the routes/g)?.length).toBeGreaterThan(1);
});

test('renderReport gives every id once and no link without a goal', () => {
  for (const verdict of [fixtureVerdict, hostileVerdict, emptyVerdict]) {
    const report = rendered(verdict);
    const ids = [...report.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
    const goals = [...report.matchAll(/href="#([^"]*)"/g)].map(([, id]) => id);
    expect(goals.filter((goal) => !ids.includes(goal))).toEqual([]);
  }
});

test('renderReport leads from the letter to its thresholds, on every basis', () => {
  const report = rendered(fixtureVerdict);
  for (const { basis } of fixtureVerdict.bases)
    for (const id of ['class-unrounded', 'class-rounded'])
      expect(report.split(`#why-${basis}.${id}"`).length, `${basis} ${id}`).toBe(2);
});

test('renderReport says in words what a section does not have', () => {
  const report = rendered(emptyVerdict);
  for (const words of [
    'The record names no priority part',
    'No specimen is on record',
    'No session is on record',
    'There is no figure to explain',
    'nothing to draw',
    'No fastener is known',
    'Nothing is open',
    'No evidence is on record',
    'No damage is on record',
    'No public sheet is on record',
    'no verdict under this scheme',
    'Outside the scheme.',
  ]) {
    expect(report).toContain(words);
  }
});

test('renderReport answers in the battery section how to reach it, why in so many steps, and what that is worth', () => {
  const report = rendered(fixtureVerdict).replace(/<[^>]+>/g, '');
  expect(report).toContain('By the best route found the part comes free in 8 steps.');
  expect(report).toContain(
    'On the way come off: SIM tray, Back cover, Bracket B, battery connector and Charging coil.',
  );
  expect(report).toContain(
    'several tools at once, which is a step a tool; 8 steps lie in the band of 6 to 10 steps, which earns 3 points; 5 would earn 4, 11 would earn 2.',
  );
  expect(report).toContain('best found: 8 steps, depth 3, fasteners 3, tools 4 points');
  expect(report).toContain('The nearest threshold is 3.35, 0.0150 above it; beyond lies class B.');
});

test('the fonts are the published bytes', () => {
  const hash = (data: string) => createHash('sha256').update(Buffer.from(data, 'base64')).digest('hex');
  const source = readFileSync(new URL('./look/font-data.ts', import.meta.url), 'utf8');
  expect(source).toContain(`SHA-256 ${hash(REGULAR_WOFF2)}`);
  expect(source).toContain(`SHA-256 ${hash(BOLD_WOFF2)}`);
});

test('cssString lets nothing end a string or the style', () => {
  expect(cssString('Tarn 5')).toBe('"Tarn 5"');
  expect(cssString('"}</style>\n\\')).toBe('"\\22 \\7d \\3c \\2f style\\3e \\a \\5c "');
  expect(cssString('\0\ud800')).toBe('"\\fffd \\fffd "');
});
