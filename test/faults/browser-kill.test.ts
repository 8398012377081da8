import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type KillableBrowser, launchKillable } from '../e2e/browser.ts';
import { markTimes } from '../e2e/mark-times.ts';
import { type PageServer, servePage } from '../e2e/page-server.ts';
import { share } from '../share.ts';
import { temporaryFolder } from '../store-fixtures.ts';
import { SeededRandom } from './seeded-random.ts';

const SEED = 20_261_125;
/** What is wrong while entries are made: nobody answers, or what is taken is never heard of, by answer or by event. */
const TROUBLES = ['server down', 'answers lost'] as const;
type Trouble = (typeof TROUBLES)[number];
/** Beside other work a browser takes its time. */
const SOON = { timeout: 20_000 };
/** Presses at most in the very moment of the kill. */
const MORE = 3;

const root = temporaryFolder('browser-kill');
const running = new Set<KillableBrowser>();
let server: PageServer;

beforeAll(async () => {
  server = await servePage(['quick-log']);
});

afterAll(async () => {
  for (const browser of running) await browser.kill();
  await server?.stop();
  root.remove();
});

/** Opens a browser on the one profile, with what an earlier one left in it. */
const reopen = async (): Promise<{ readonly page: Page; readonly browser: KillableBrowser }> => {
  const browser = await launchKillable(join(root.path, 'profile'));
  running.add(browser);
  browser.context.setDefaultTimeout(30_000);
  const page = await browser.context.newPage();
  await page.goto(server.url);
  await page.getByRole('heading', { name: 'Shelf' }).waitFor();
  return { page, browser };
};

const kill = async (browser: KillableBrowser): Promise<void> => {
  await browser.kill();
  running.delete(browser);
};

/** Which changes lie on the disk of the browser and are not known to be home? In their order. */
const outboxOf = (page: Page): Promise<readonly string[]> =>
  page.evaluate(async () => {
    const asked = <Value>(request: IDBRequest<Value>) =>
      new Promise<Value>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const database = await asked(indexedDB.open('unfasten'));
    const items = await asked(database.transaction('items').objectStore('items').getAll());
    database.close();
    return items.filter(({ home }) => !home).map(({ queued }) => queued.change as string);
  });

const changeKeys = async (): Promise<readonly string[]> =>
  (await server.ledger.changes('quick-log', 0)).map(({ change }) => change);

/** Begins a session, brings on the trouble and marks times: gives what is kept, with more presses on their way. */
const troubledSession = async (page: Page, trouble: Trouble, random: SeededRandom): Promise<readonly string[]> => {
  if (trouble === 'answers lost') await page.route('**/events?*', (route) => route.abort());
  await page.goto(new URL('/a/quick-log/bench', server.url).href);
  await page.getByRole('button', { name: /^Begin; the clock starts/ }).press('Enter');
  await page.getByRole('timer').waitFor();
  await expect.poll(() => outboxOf(page), SOON).toEqual([]);
  if (trouble === 'server down') await server.down();
  else await page.route('**/changes', async (route) => void (await route.fetch().catch(() => undefined)));
  const presses = 3 + random.below(6);
  for (let press = 0; press < presses; press += 1) await page.keyboard.press('Space');
  await expect.poll(async () => (await outboxOf(page)).length, SOON).toBe(presses);
  const kept = await outboxOf(page);
  for (let press = random.below(MORE + 1); press > 0; press -= 1)
    void page.keyboard.press('Space').catch(() => undefined);
  await new Promise((resolve) => setTimeout(resolve, random.below(40)));
  return kept;
};

test(`what a killed browser had kept goes up once and in order when it is opened again (seed ${SEED})`, {
  timeout: 3_600_000,
}, async () => {
  const random = new SeededRandom(SEED);
  let { page, browser } = await reopen();
  for (let round = 0; round < share(1, 24); round += 1) {
    const trouble = TROUBLES[round % TROUBLES.length] ?? 'server down';
    const where = `round ${round}, ${trouble}`;
    const before = await changeKeys();
    const kept = await troubledSession(page, trouble, random);
    await kill(browser);
    if (trouble === 'server down') await server.up();
    ({ page, browser } = await reopen());
    const arrived = async () => (await changeKeys()).filter((key) => kept.includes(key));
    await expect.poll(arrived, { ...SOON, message: where }).toEqual(kept);
    await expect.poll(() => outboxOf(page), { ...SOON, message: where }).toEqual([]);
    const keys = await changeKeys();
    expect(new Set(keys).size, where).toBe(keys.length);
    // The session's beginning, what was kept, and at most what was pressed in the very moment of the kill.
    expect(keys.length - before.length, where).toBeLessThanOrEqual(1 + kept.length + MORE);
    const times = markTimes(await server.ledger.changes('quick-log', before.length + 1));
    expect(times.length, where).toBeGreaterThanOrEqual(kept.length);
    expect(times, where).toEqual(times.toSorted((a, b) => a - b));
  }
  await kill(browser);
});
