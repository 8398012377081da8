import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { share } from '../share.ts';
import { launchBrowser } from './browser.ts';
import { brokenRules, SHEETS, tooSmallOrWide } from './look-closely.ts';
import { type PageServer, servePage } from './page-server.ts';

let server: PageServer;
let browser: Browser;

beforeAll(async () => {
  server = await servePage(['quick-log', 'tarn-5', 'tarn-4']);
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

interface Bench {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly said: string[];
}

const openBench = async (assessment: string, options: Parameters<Browser['newContext']>[0] = {}): Promise<Bench> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  context.setDefaultTimeout(15_000);
  const page = await context.newPage();
  const said: string[] = [];
  page.on('console', (message) => message.type() === 'error' && said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  await page.goto(new URL(`/a/${assessment}/bench`, server.url).href);
  await page.getByRole('heading', { name: 'Begin a session' }).waitFor();
  return { context, page, said };
};

const beginByKeyboard = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: /^Begin; the clock starts/ }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('timer').waitFor();
};

const log = (page: Page) => page.getByRole('list', { name: 'Log of this session' }).getByRole('listitem');
const onDisk = (page: Page) => page.getByText(/^All on disk/).waitFor();
const documentOf = async (assessment: string) => (await server.ledger.head(assessment)).document;
const newestSession = async (assessment: string) => {
  const sessions = Object.values((await documentOf(assessment)).sessions ?? {});
  return sessions.toSorted((a, b) => Date.parse(b.start) - Date.parse(a.start))[0];
};

const say = async (page: Page, line: string): Promise<void> => {
  await page.keyboard.press('/');
  await page.keyboard.type(line);
  await page.keyboard.press('Enter');
};

test('a session of a hundred entries by keyboard alone', { timeout: 240_000 }, async () => {
  const { context, page, said } = await openBench('tarn-5');
  await beginByKeyboard(page);
  await say(page, 'goal battery');
  for (let count = 0; count < 40; count += 1) await page.keyboard.press('Space');
  for (let count = 0; count < 5; count += 1) await page.keyboard.press('Enter');
  for (let count = 0; count < 54; count += 1) await page.keyboard.press('Space');
  await say(page, 'heat 80c 3min rear');
  await expect.poll(() => log(page).count()).toBeGreaterThan(90);
  await onDisk(page);
  const session = await newestSession('tarn-5');
  const entries = Object.values(session?.entries ?? {});
  expect(entries.filter(({ at }) => at >= 0)).toHaveLength(94);
  expect(entries.filter(({ do: action }) => action !== undefined)).toHaveLength(6);
  expect(entries.filter(({ naming }) => naming === 'suggested')).toHaveLength(5);
  expect(entries.filter(({ goal }) => goal === 'battery')).toHaveLength(94);
  expect(said).toEqual([]);
  await context.close();
});

test('every order is in view on a low screen while a caution is shown', async () => {
  const { context, page } = await openBench('tarn-5');
  await beginByKeyboard(page);
  await say(page, 'goal battery');
  await say(page, 'heat 80c 3min rear');
  for (const key of ['Space', 'Enter', 'Space', 'Enter', 'Space', 'Space']) await page.keyboard.press(key);
  await page.getByRole('region', { name: 'Caution' }).first().waitFor();
  for (const [width, height] of Object.entries({ 1440: 900, 1280: 800 })) {
    await page.setViewportSize({ width: Number(width), height });
    const orders = await page.locator('[data-bench] button:visible').all();
    expect(orders.length).toBeGreaterThan(30);
    for (const order of orders) {
      const { y = -1, height: high = 0 } = (await order.boundingBox()) ?? {};
      expect.soft([y >= 0, y + high <= height], `${width}: ${await order.textContent()}`).toEqual([true, true]);
    }
  }
  await context.close();
});

test('letters are orders outside the line and text inside it; a wrong proposal enters nothing', async () => {
  const { context, page } = await openBench('tarn-4');
  await beginByKeyboard(page);
  await page.getByText('Keys: letters are orders').waitFor();
  await page.keyboard.press('/');
  await page.getByText('Line: letters are text').waitFor();
  await page.keyboard.type('dpfuhg space i');
  expect(await page.getByRole('combobox', { name: /Entry line/ }).inputValue()).toBe('dpfuhg space i');
  await page.keyboard.press('Escape');
  await page.getByText('Keys: letters are orders').waitFor();
  expect(await page.getByRole('dialog').count()).toBe(0);
  await page.keyboard.press('Space');
  await expect.poll(() => log(page).count()).toBe(1);
  expect(await log(page).first().textContent()).toContain('not named yet');
  await page.keyboard.press('u');
  await expect.poll(() => log(page).count()).toBe(0);
  await context.close();
});

test('a hold stops the clock, and going on starts it', async () => {
  const { context, page } = await openBench('quick-log');
  await beginByKeyboard(page);
  await page.keyboard.press('h');
  await page.getByRole('button', { name: 'camera', exact: true }).press('Enter');
  await page.getByText('hold: camera').first().waitFor();
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await page.keyboard.press('h');
  await onDisk(page);
  await expect.poll(async () => Object.values((await newestSession('quick-log'))?.holds ?? {}).length).toBe(1);
  await expect
    .poll(async () => Object.values((await newestSession('quick-log'))?.holds ?? {}).every(({ from, to }) => to > from))
    .toBe(true);
  await context.close();
});

test('actions nobody marked are caught up and share their time', async () => {
  const { context, page } = await openBench('tarn-4');
  await beginByKeyboard(page);
  await page.keyboard.press('k');
  await page.getByLabel('A line for each action').fill('unscrew bottom screws\nlift display');
  await page.getByRole('button', { name: 'Enter them' }).press('Enter');
  await expect.poll(() => log(page).count()).toBe(2);
  await onDisk(page);
  const session = await newestSession('tarn-4');
  const intervals = Object.keys(session?.intervals ?? {});
  expect(intervals).toHaveLength(1);
  expect(Object.values(session?.entries ?? {}).map(({ interval }) => interval)).toEqual([intervals[0], intervals[0]]);
  await context.close();
});

test('any mark can be named: by its line in the log, by the keys for before and next, and then the one after it', async () => {
  const { context, page } = await openBench('tarn-4');
  const toName = page.locator('li[aria-current="step"]');
  const placeToName = () => toName.evaluate((line) => [...(line.parentElement?.children ?? [])].indexOf(line));
  await beginByKeyboard(page);
  for (let count = 0; count < 4; count += 1) await page.keyboard.press('Space');
  await expect.poll(placeToName).toBe(3);
  await log(page).nth(1).getByRole('button').click();
  await expect.poll(placeToName).toBe(1);
  await say(page, 'clean bottom edge');
  await expect.poll(placeToName).toBe(2);
  await page.keyboard.press('e');
  await expect.poll(placeToName).toBe(0);
  await page.keyboard.press('e');
  await expect.poll(placeToName).toBe(3);
  await page.keyboard.press('n');
  await expect.poll(placeToName).toBe(0);
  await say(page, 'turn over');
  await expect.poll(placeToName).toBe(2);
  await page.keyboard.press('Space');
  await expect.poll(placeToName).toBe(4);
  const words = await log(page).allTextContents();
  expect(words.map((line) => /turn over|clean|not named/.exec(line)?.[0])).toEqual([
    'turn over',
    'clean',
    'not named',
    'not named',
    'not named',
  ]);
  await context.close();
});

test('what was caught up in review stands between the two marks chosen', async () => {
  const { context, page } = await openBench('tarn-4');
  await beginByKeyboard(page);
  for (let count = 0; count < 3; count += 1) await page.keyboard.press('Space');
  await page.keyboard.press('k');
  await page.getByLabel('Since').selectOption({ index: 3 });
  await page.getByLabel('Until').selectOption({ index: 2 });
  await page.getByLabel('A line for each action').fill('turn over\nclean bottom edge');
  await page.getByRole('button', { name: 'Enter them' }).press('Enter');
  await expect.poll(() => log(page).count()).toBe(5);
  const words = await log(page).allTextContents();
  expect(words.map((line) => /turn over|clean|not named/.exec(line)?.[0])).toEqual([
    'not named',
    'turn over',
    'clean',
    'not named',
    'not named',
  ]);
  await onDisk(page);
  const entries = Object.values((await newestSession('tarn-4'))?.entries ?? {}).toSorted((a, b) => a.at - b.at);
  const [first, ...others] = entries.map(({ interval }) => interval);
  expect([first, others[3]]).toEqual([undefined, undefined]);
  expect(new Set(others.slice(0, 3)).size).toBe(1);
  expect(others[0]).toBeDefined();
  await context.close();
});

test('by touch alone: the action, then what it was done to', async () => {
  const { context, page } = await openBench('tarn-4', { hasTouch: true, viewport: { width: 820, height: 1180 } });
  await page.getByRole('button', { name: /^Begin; the clock starts/ }).tap();
  await page.getByRole('button', { name: 'unscrew', exact: true }).tap();
  const target = page
    .getByRole('region', { name: /^Target of unscrew/ })
    .getByRole('button')
    .nth(1);
  const name = await target.textContent();
  await target.tap();
  await expect.poll(() => log(page).count()).toBe(1);
  expect(await log(page).first().textContent()).toContain(name ?? 'nothing');
  const tiles = page.getByRole('region', { name: 'Actions' }).getByRole('button');
  for (const tile of await tiles.all()) {
    const box = await tile.boundingBox();
    expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(56);
  }
  await context.close();
});

test('a second screen follows, writes, and both end with the same', async () => {
  const first = await openBench('quick-log');
  await beginByKeyboard(first.page);
  await onDisk(first.page);
  const second = await openBench('quick-log');
  await second.page.getByRole('list').getByRole('button').first().click();
  await second.page.getByRole('timer').waitFor();
  const pressed = Date.now();
  await first.page.keyboard.press('Space');
  await expect.poll(() => log(second.page).count(), { interval: 10 }).toBe(1);
  expect(Date.now() - pressed).toBeLessThan(2000);
  await say(second.page, 'unplug battery flex');
  await expect.poll(async () => log(first.page).first().textContent()).toContain('unplug');
  await first.context.close();
  await second.context.close();
});

test('with the line down logging goes on, and what waited goes up once, in order', async () => {
  const { context, page } = await openBench('quick-log');
  await beginByKeyboard(page);
  await onDisk(page);
  await context.setOffline(true);
  for (let count = 0; count < 5; count += 1) await page.keyboard.press('Space');
  await expect.poll(() => log(page).count()).toBe(5);
  expect(Object.keys((await newestSession('quick-log'))?.entries ?? {})).toHaveLength(0);
  await context.setOffline(false);
  await onDisk(page);
  await expect.poll(async () => Object.keys((await newestSession('quick-log'))?.entries ?? {}).length).toBe(5);
  await context.close();
});

test('the bench is blind: no letter, no score, no direction', async () => {
  const { context, page } = await openBench('tarn-5');
  await beginByKeyboard(page);
  for (let count = 0; count < 4; count += 1) {
    await page.keyboard.press('Space');
    await page.keyboard.press('Enter');
  }
  const shown = (await page.locator('div[data-bench]').textContent()) ?? '';
  expect(shown).not.toMatch(/\bclass\b|\bscore\b|\bindex\b|\b[1-5]\.\d{2,4}\b|letter [A-E]\b/i);
  await context.close();
});

test.each(SHEETS.slice(0, share(1, 6)))(
  'the bench is clean at $width px on the $sheet sheet',
  { timeout: 120_000 },
  async ({ width, sheet }) => {
    const { context, page } = await openBench('tarn-5', {
      colorScheme: sheet,
      viewport: { width, height: 900 },
      reducedMotion: 'reduce',
    });
    expect(await brokenRules(page)).toEqual([]);
    expect(await tooSmallOrWide(page)).toEqual({ small: [], over: 0 });
    await beginByKeyboard(page);
    // Two marks: the line of the one that is not to be named now is a button.
    await page.keyboard.press('Space');
    await page.keyboard.press('Space');
    await page.keyboard.press('/');
    await page.keyboard.type('unplug battery');
    expect(await brokenRules(page)).toEqual([]);
    expect(await tooSmallOrWide(page)).toEqual({ small: [], over: 0 });
    await page.keyboard.press('Escape');
    for (const key of ['d', 'g', 'o', 'k']) {
      await page.keyboard.press(key);
      await page.getByRole('dialog').waitFor();
      expect([key, await brokenRules(page)]).toEqual([key, []]);
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
    }
    await context.close();
  },
);
