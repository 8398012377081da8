import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchBrowser } from '../e2e/browser.ts';
import { markTimes } from '../e2e/mark-times.ts';
import { type PageServer, servePage } from '../e2e/page-server.ts';
import { share } from '../share.ts';

const MINUTES = 10;
/** In the suite the page's own clocks are put on between the marks; the deep run waits. */
const isCompressed = share(1, 0) === 1;

let server: PageServer;
let browser: Browser;

beforeAll(async () => {
  server = await servePage(['quick-log']);
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const minutePasses = (page: Page): Promise<void> =>
  isCompressed ? page.clock.runFor('01:00') : page.waitForTimeout(60_000);

const onDisk = (page: Page) => page.getByText(/^All on disk/).waitFor();

test('with the network off for ten minutes logging goes on, and everything arrives once and in order', {
  timeout: 900_000,
}, async () => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  context.setDefaultTimeout(30_000);
  const page = await context.newPage();
  if (isCompressed) await page.clock.install();
  await page.goto(new URL('/a/quick-log/bench', server.url).href);
  await page.getByRole('button', { name: /^Begin; the clock starts/ }).press('Enter');
  await page.getByRole('timer').waitFor();
  await onDisk(page);
  const { revision } = await server.ledger.head('quick-log');

  await context.setOffline(true);
  for (let minute = 1; minute <= MINUTES; minute += 1) {
    await minutePasses(page);
    await page.keyboard.press('Space');
    await page.getByText(`Offline. ${minute === 1 ? '1 change' : `${minute} changes`} kept in this browser`).waitFor();
  }
  await page.keyboard.press('/');
  await page.keyboard.type('unplug battery flex');
  await page.keyboard.press('Enter');
  await page.getByText(`Offline. ${MINUTES + 1} changes kept in this browser, to be sent.`).waitFor();
  expect(await page.getByRole('timer').textContent()).toContain('0:10:');
  const log = page.getByRole('list', { name: 'Log of this session' }).getByRole('listitem');
  expect(await log.count()).toBe(MINUTES);
  expect((await server.ledger.head('quick-log')).revision).toBe(revision);

  await context.setOffline(false);
  await onDisk(page);
  const changes = await server.ledger.changes('quick-log', revision);
  expect(changes).toHaveLength(MINUTES + 1);
  expect(new Set(changes.map(({ change }) => change)).size).toBe(MINUTES + 1);
  const marks = markTimes(changes);
  const gaps = marks.slice(1).map((at, index) => at - (marks[index] ?? 0));
  expect(gaps).toHaveLength(MINUTES - 1);
  expect(gaps.filter((gap) => gap < 59 || gap > 75)).toEqual([]);
  const { document } = await server.ledger.head('quick-log');
  const named = Object.values(document.sessions ?? {}).flatMap(({ entries }) =>
    Object.values(entries).filter(({ do: action, at }) => action === 'unplug' && at === marks.at(-1)),
  );
  expect(named).toHaveLength(1);
  await context.close();
});
