import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { share } from '../share.ts';
import { launchBrowser } from './browser.ts';
import { brokenRules, SHEETS, tooSmallOrWide } from './look-closely.ts';
import { type PageServer, servePage } from './page-server.ts';

let server: PageServer;
let browser: Browser;

beforeAll(async () => {
  server = await servePage(['gust-2']);
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const newBrowser = async (options: Parameters<Browser['newContext']>[0] = {}): Promise<BrowserContext> => {
  const context = await browser.newContext(options);
  context.setDefaultTimeout(20_000);
  return context;
};

const visit = async (context: BrowserContext, path: string): Promise<{ page: Page; said: string[] }> => {
  const page = await context.newPage();
  const said: string[] = [];
  page.on('console', (message) => message.type() === 'error' && said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  await page.goto(new URL(path, server.url).href);
  await page.getByRole('heading', { level: 1 }).waitFor();
  return { page, said };
};

const effectOf = (page: Page) => page.getByRole('table', { name: 'Effect on the shelf' }).getByRole('row').nth(1);
const textOf = (page: Page) => page.getByLabel('Rubric, as YAML').inputValue();

test.each(SHEETS.slice(0, share(1, 6)))(
  'the rubric screen is clean at $width px on the $sheet sheet, with faults and without',
  async ({ width, sheet }) => {
    const context = await newBrowser({ colorScheme: sheet, viewport: { width, height: 900 }, reducedMotion: 'reduce' });
    const { page, said } = await visit(context, '/rubric');
    await effectOf(page).getByText('79.5 to 93.9').waitFor();
    expect([await brokenRules(page), await tooSmallOrWide(page)]).toEqual([[], { small: [], over: 0 }]);
    await page.getByLabel('Rubric, as YAML').fill(`${await textOf(page)}\ncolour: green\n`);
    await page.getByRole('button', { name: /^line \d+, column 1: colour$/ }).waitFor();
    expect([await brokenRules(page), await tooSmallOrWide(page)]).toEqual([[], { small: [], over: 0 }]);
    expect(said).toEqual([]);
    await context.close();
  },
);

test('by keyboard alone a weight is changed, its effect seen on the shelf, a fault mended and the edition kept', async () => {
  const context = await newBrowser();
  const { page, said } = await visit(context, '/');
  await page
    .getByRole('row', { name: /Gust 2/ })
    .getByText('79.5 to 93.9')
    .waitFor();
  await page.getByRole('link', { name: 'House rubric' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'House rubric' }).waitFor();
  await page.getByText(/as it ships; no edition of your own is kept yet/).waitFor();
  await effectOf(page).getByText('79.5 to 93.9').waitFor();

  const weight = page.getByLabel('Weight of How deep the battery lies');
  await weight.focus();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('0');
  expect(await weight.getAttribute('aria-invalid')).toBe('true');
  expect(await textOf(page)).toContain('weight: 10\n');
  await page.keyboard.press('Backspace');
  await page.keyboard.type('30');
  await page.keyboard.press('Tab');
  await expect.poll(() => textOf(page)).toContain('weight: 30\n');
  // 84 weights become 104, 20 more of them on a settled 100 points: (84 × 79.585 + 2000) / 104 and (84 × 93.870 + 2000) / 104.
  await effectOf(page).getByText('83.5 to 95.1').waitFor();
  expect(await effectOf(page).textContent()).toMatch(/79\.5 to 93\.9\s*83\.5 to 95\.1/);

  await page.reload();
  await expect.poll(() => textOf(page)).toContain('weight: 30\n');
  await effectOf(page).getByText('83.5 to 95.1').waitFor();

  await page.getByLabel('Rubric, as YAML').focus();
  await page.keyboard.press('Control+End');
  await page.keyboard.type('colour: green');
  const fault = page.getByRole('button', { name: /^line \d+, column 1: colour$/ });
  await fault.focus();
  expect(await page.getByRole('button', { name: 'Keep as edition 2' }).isDisabled()).toBe(true);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Shift+End');
  await page.keyboard.press('Delete');
  await fault.waitFor({ state: 'detached' });

  await page.getByLabel('At whose hand').focus();
  await page.keyboard.type('M. R.');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.getByText('Kept as edition 2.').waitFor();
  await page.getByText(/^Quayside general, edition 2 of .*: the edition kept last\./).waitFor();
  const [kept] = await server.ledger.rubrics();
  expect([kept?.id, kept?.edition, kept?.author]).toEqual(['quayside-general', 2, 'M. R.']);
  const { text } = await server.ledger.rubric('quayside-general', 2);
  expect([text.includes('# --- the battery:'), text.includes('weight: 30'), text.includes('colour')]).toEqual([
    true,
    true,
    false,
  ]);
  await page.getByRole('link', { name: 'Unfasten' }).click();
  await page
    .getByRole('row', { name: /Gust 2/ })
    .getByText('83.5 to 95.1')
    .waitFor();
  expect(said).toEqual([]);
  await context.close();
});
