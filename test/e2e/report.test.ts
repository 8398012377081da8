import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { renderReport } from '#report/render-report';
import type { Verdict } from '#verdict/verdict';
import { houseScore } from '../fixtures/house-score.ts';
import { emptyVerdict, hostileVerdict } from '../fixtures/odd-verdicts.ts';
import { fixtureOutlook } from '../fixtures/outlook.ts';
import { fixtureVerdict } from '../fixtures/verdict.ts';
import { share } from '../share.ts';
import { launchBrowser } from './browser.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
const widths = [1440, 820, 390];
const schemes = ['light', 'dark'] as const;
const reports: Readonly<Record<string, Verdict>> = {
  full: fixtureVerdict,
  hostile: hostileVerdict,
  empty: emptyVerdict,
};
const sha256Base64 = (text: string) => createHash('sha256').update(text, 'utf8').digest('base64');

let browser: Browser;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'unfasten-report-'));
  for (const [name, verdict] of Object.entries(reports)) {
    writeFileSync(
      join(folder, `${name}.html`),
      renderReport(verdict, { sha256Base64 }, name === 'full' ? { house: houseScore(), outlook: fixtureOutlook } : {}),
    );
  }
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Opened {
  readonly page: Page;
  /** Everything the console said, and every request beyond the file itself. */
  readonly noise: readonly string[];
}

async function open(name: string, width = 1440, colorScheme: 'light' | 'dark' = 'light'): Promise<Opened> {
  // The report needs no script; axe is brought in from outside its policy, which stays in force for everything else.
  const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
  const noise: string[] = [];
  const url = pathToFileURL(join(folder, `${name}.html`)).href;
  page.on('console', (message) => noise.push(message.text()));
  page.on('pageerror', (error) => noise.push(String(error)));
  page.on('request', (request) => {
    if (request.url() !== url && !request.url().startsWith('data:font/woff2')) noise.push(request.url().slice(0, 80));
  });
  await page.goto(url);
  return { page, noise };
}

async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(axeSource);
  return page.evaluate(async (values) => {
    const { axe } = window as unknown as {
      axe: {
        run(what: unknown): Promise<{ passes: unknown[]; violations: { id: string; nodes: { html: string }[] }[] }>;
      };
    };
    const { violations: found, passes } = await axe.run({ runOnly: { type: 'tag', values } });
    if (passes.length < 15) return [`only ${passes.length} rules had anything to check`];
    return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`);
  }, tags);
}

/** Two in the suite, one of each theme; all six in the deep run. */
const views = [
  ...widths.map((width, index) => [width, schemes[index % 2] ?? 'light'] as const),
  ...widths.map((width, index) => [width, schemes[(index + 1) % 2] ?? 'dark'] as const),
].slice(0, share(2, 6));

test.each(views)(
  'the report at %i px, %s: no violation, no sideways scrolling, nothing on the console, no request',
  async (width, scheme) => {
    const { page, noise } = await open('full', width, scheme);
    await page.evaluate(() => document.fonts.ready);
    const scrolls = await page.evaluate(
      () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
    );
    const font = await page.evaluate(() => document.fonts.check('16px "Atkinson Hyperlegible"') && document.fonts.size);
    expect([scrolls, noise, font]).toEqual([false, [], 2]);
    expect(await violations(page)).toEqual([]);
    await page.close();
  },
);

test.each(['hostile', 'empty'])('the %s report keeps to its width, stays accessible and runs nothing', async (name) => {
  const { page, noise } = await open(name, 390);
  const facts = await page.evaluate(() => ({
    scrolls: document.documentElement.scrollWidth > document.documentElement.clientWidth,
    strangers: document.querySelectorAll('script, img, iframe, [onerror]').length,
  }));
  expect([facts, noise]).toEqual([{ scrolls: false, strangers: 0 }, []]);
  expect(await violations(page)).toEqual([]);
  await page.close();
});

test('with everything unfolded the walk-back is accessible too', async () => {
  const { page } = await open('full', 820);
  await page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
  expect(await violations(page)).toEqual([]);
  await page.close();
});

test('a person with a keyboard skips to the content, follows a figure to its clause and unfolds what it is made of', async () => {
  const { page } = await open('full');
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the content');
  await page.keyboard.press('Enter');
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('content');
  await page.getByRole('row', { name: 'Disassembly depth, SDD' }).getByRole('link').last().focus();
  await page.keyboard.press('Enter');
  const target = page.locator(':target');
  await expect.poll(() => target.isVisible()).toBe(true);
  expect(await target.textContent()).toContain('Regulation (EU) 2023/1669, Annex IV point 5');
  const battery = target.locator('summary').first();
  await battery.focus();
  await page.keyboard.press('Enter');
  expect(await target.locator('details').first().getByText('band of the steps').isVisible()).toBe(true);
  await page.close();
});

test('the keyboard reaches every link, fold and scrolling table that is on show, in the order of the page', async () => {
  const { page } = await open('empty', 390);
  const expected = await page.evaluate(() => {
    const all = [...document.querySelectorAll<HTMLElement>('a[href], summary, [tabindex="0"]')];
    return all.filter((element) => element.checkVisibility()).length;
  });
  const reached: number[] = [];
  for (let presses = 0; presses < expected; presses += 1) {
    await page.keyboard.press('Tab');
    reached.push(
      await page.evaluate(() =>
        [...document.querySelectorAll('a[href], summary, [tabindex="0"]')].indexOf(document.activeElement as Element),
      ),
    );
  }
  expect(reached).toEqual(Array.from({ length: expected }, (_, index) => index));
  await page.close();
});

test('one of the three drawings is on show at each width, and its words are inside it', async () => {
  for (const width of widths) {
    const { page } = await open('full', width);
    const shown = await page.evaluate(() =>
      [...document.querySelectorAll<SVGSVGElement>('svg.depth')]
        .filter((svg) => svg.checkVisibility())
        .map((svg) => {
          const frame = svg.getBoundingClientRect();
          const outside = [...svg.querySelectorAll('text')].filter((text) => {
            const box = text.getBoundingClientRect();
            return box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1;
          });
          const loose = [...svg.querySelectorAll('rect.slab')].filter((slab) => {
            const label = slab.nextElementSibling?.getBoundingClientRect();
            return label === undefined || label.right > slab.getBoundingClientRect().right + 1;
          });
          return [outside.length, loose.length];
        }),
    );
    expect(shown, `${width} px`).toEqual([[0, 0]]);
    await page.close();
  }
});

test('on paper it has several pages, unfolds everything and stays in light colours on a dark screen', async () => {
  const { page } = await open('full', 1440, 'dark');
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
  expect(pages).toBeGreaterThan(5);
  await page.emulateMedia({ media: 'print' });
  const paper = await page.evaluate(() => ({
    colour: getComputedStyle(document.body).backgroundColor,
    ink: getComputedStyle(document.body).color,
    folded: [...document.querySelectorAll('details:not([open]) > .in')].filter(
      (inside) => inside.getBoundingClientRect().height === 0,
    ).length,
  }));
  expect(paper).toEqual({ colour: 'rgb(255, 255, 255)', ink: 'rgb(29, 35, 38)', folded: 0 });
  await page.close();
});
