import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { repositoryRoot } from '../../tools/source/repository-files.ts';
import { runInProcess } from '../cli/run-in-process.ts';
import { temporaryFolder } from '../store-fixtures.ts';
import { launchBrowser } from './browser.ts';
import { type PageServer, servePage } from './page-server.ts';

const root = temporaryFolder('round-trip');
const served: PageServer[] = [];
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  for (const server of served) await server.stop();
  root.remove();
});

/** Takes a folder into a fresh ledger by the command line, and serves it. */
const importAndServe = async (folder: string, data: string): Promise<PageServer> => {
  const imported = await runInProcess(['ledger', 'import', folder, '--as', 'quick-log', '--data', data]);
  expect([imported.code, imported.err]).toEqual([0, '']);
  const server = await servePage([], { folder: data });
  served.push(server);
  return server;
};

const open = async (server: PageServer, path: string): Promise<Page> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  context.setDefaultTimeout(30_000);
  const page = await context.newPage();
  await page.goto(new URL(path, server.url).href);
  return page;
};

const say = async (page: Page, line: string): Promise<void> => {
  await page.keyboard.press('/');
  await page.keyboard.type(line);
  await page.keyboard.press('Enter');
};

const logLines = (page: Page) =>
  page.getByRole('list', { name: 'Log of this session' }).getByRole('listitem').allTextContents();

/** What the record screen counts, once it stands. */
const counts = async (page: Page, server: PageServer): Promise<readonly string[]> => {
  await page.goto(new URL('/a/quick-log', server.url).href);
  const table = page.getByRole('table', { name: 'What is on record' });
  await table.waitFor();
  return await table.getByRole('row').allTextContents();
};

const NOTE = '<script>alert(1)</script> مختبر 🔧 seen on camera 2';

test('a session logged in the page goes out as a folder and into a fresh ledger, and the page shows the same', {
  timeout: 120_000,
}, async () => {
  const first = await importAndServe(join(repositoryRoot, 'examples', 'quick-log'), join(root.path, 'first'));
  const page = await open(first, '/a/quick-log/bench');
  await page.getByRole('button', { name: /^Begin; the clock starts/ }).press('Enter');
  await page.getByRole('timer').waitFor();
  for (let count = 0; count < 3; count += 1) await page.keyboard.press('Space');
  await say(page, 'unplug battery flex');
  await say(page, `2 screw ph000 cover-plate -- ${NOTE}`);
  await page.keyboard.press('u');
  await say(page, NOTE);
  await page.keyboard.press('i');
  await page.getByRole('dialog').waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await page.getByText(/^All on disk/).waitFor();
  const logged = await logLines(page);
  expect(logged.join('\n')).toContain(NOTE);
  const before = await first.ledger.head('quick-log');

  // While it is served: an export reads beside the process that writes.
  const out = join(root.path, 'out');
  const exported = await runInProcess(['ledger', 'export', 'quick-log', '--out', out, '--data', first.folder]);
  expect([exported.code, exported.err]).toEqual([0, '']);
  const text = readFileSync(join(out, 'assessment.yaml'), 'utf8');
  expect(text).toContain('# Quick log: a log with goals and nothing else.');

  const second = await importAndServe(out, join(root.path, 'second'));
  const { document } = await second.ledger.head('quick-log');
  expect(document).toEqual(before.document);
  const again = await open(second, '/a/quick-log/bench');
  await again.getByRole('list').getByRole('button').first().click();
  await again.getByRole('timer').waitFor();
  expect(await logLines(again)).toEqual(logged);
  expect(await counts(again, second)).toEqual(await counts(page, first));
});
