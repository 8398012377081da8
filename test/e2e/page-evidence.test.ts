import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { runInProcess } from '../cli/run-in-process.ts';
import { temporaryFolder } from '../store-fixtures.ts';
import { launchBrowser } from './browser.ts';
import { brokenRules, tooSmallOrWide } from './look-closely.ts';
import { type PageServer, servePage } from './page-server.ts';

/** A browser test takes seconds alone, and a minute beside other work. */
const PATIENT = { timeout: 180_000 };

const root = temporaryFolder('page-evidence');
let server: PageServer;
let browser: Browser;

beforeAll(async () => {
  server = await servePage(['quick-log', 'tarn-4']);
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
  root.remove();
});

interface Visit {
  readonly page: Page;
  /** What the page reported as an error, and every box a script of its own opened. */
  readonly said: string[];
}

const openRecord = async (assessment: string): Promise<Visit> => {
  const context = await browser.newContext();
  context.setDefaultTimeout(30_000);
  const page = await context.newPage();
  const said: string[] = [];
  page.on('pageerror', (error) => said.push(error.message));
  page.on('dialog', (dialog) => {
    said.push(dialog.message());
    void dialog.dismiss();
  });
  await page.goto(new URL(`/a/${assessment}`, server.url).href);
  await page.getByRole('heading', { name: 'Evidence' }).waitFor();
  return { page, said };
};

const takeIn = async (page: Page, file: Parameters<ReturnType<Page['getByLabel']>['setInputFiles']>[0]) => {
  await page.getByLabel('File').setInputFiles(file);
  await page.getByRole('button', { name: 'Take it in' }).press('Enter');
};

const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const onRecord = async (assessment: string, sha256: string) =>
  Object.values((await server.ledger.head(assessment)).document.evidence ?? {}).filter(
    (item) => item.sha256 === sha256,
  );

const HOSTILE_NAMES = [
  '../../../outside.jpg',
  '..\\..\\<img src=x onerror=alert(1)>.jpg',
  '<script>alert(document.domain)</script>',
  `${'long '.repeat(45)}‮gpj.exe`,
];

test('files with hostile names go on record as text, and out into no other folder', PATIENT, async () => {
  const { page, said } = await openRecord('quick-log');
  for (const name of HOSTILE_NAMES) {
    const bytes = Buffer.from(`bytes of ${name}`);
    const sha256 = sha256Of(bytes);
    await takeIn(page, { name, mimeType: 'image/jpeg', buffer: bytes });
    await page.getByText(`is on record as photo-${sha256.slice(0, 12)}`).waitFor();
    await page.getByText(/^All on disk/).waitFor();
    const found = await onRecord('quick-log', sha256);
    expect(found).toMatchObject([{ kind: 'photo', source: expect.stringContaining('file “') }]);
    const row = page.getByRole('table', { name: 'Evidence' }).getByRole('row').last();
    expect(await row.getByRole('rowheader').textContent()).toBe(found[0]?.file);
    expect((await tooSmallOrWide(page)).over).toBe(0);
  }
  expect(said).toEqual([]);
  const out = join(root.path, 'out');
  const { code } = await runInProcess(['ledger', 'export', 'quick-log', '--out', out, '--data', server.folder]);
  const exported = readdirSync(out, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const texts = exported.map((entry) => [entry.parentPath, readFileSync(join(entry.parentPath, entry.name), 'utf8')]);
  for (const name of HOSTILE_NAMES) expect(texts).toContainEqual([join(out, 'evidence'), `bytes of ${name}`]);
  expect([code, readdirSync(root.path)]).toEqual([0, ['out']]);
  await page.context().close();
});

test('the same bytes go on record once, and are handed back as they came', PATIENT, async () => {
  const { page } = await openRecord('tarn-4');
  const bytes = Buffer.from('%PDF-1.7 of an order');
  await page.getByLabel('File').setInputFiles({ name: 'order.pdf', mimeType: 'application/pdf', buffer: bytes });
  await page.getByLabel('Kind').selectOption('order');
  await page.getByLabel('What it shows').fill('the order of the specimen');
  await page.getByRole('button', { name: 'Take it in' }).press('Enter');
  const key = `order-${sha256Of(bytes).slice(0, 12)}`;
  await page.getByText(`order.pdf is on record as ${key}`).waitFor();
  await takeIn(page, { name: 'again.pdf', mimeType: 'application/pdf', buffer: bytes });
  await page.getByText(`These bytes are on record already, as ${key}.`).waitFor();
  await page.getByText(/^All on disk/).waitFor();
  expect(await onRecord('tarn-4', sha256Of(bytes))).toEqual([
    { kind: 'order', says: 'the order of the specimen', file: 'order.pdf', sha256: sha256Of(bytes) },
  ]);
  const downloading = page.waitForEvent('download');
  await page
    .getByRole('row', { name: /order\.pdf/ })
    .getByRole('link')
    .click();
  const download = await downloading;
  expect([download.suggestedFilename(), readFileSync(await download.path(), 'utf8')]).toEqual([
    'order.pdf',
    bytes.toString(),
  ]);
  expect(await brokenRules(page)).toEqual([]);
  await page.context().close();
});

test(
  'a file that cannot be sent is said in words, and nothing stands on record that the server does not have',
  PATIENT,
  async () => {
    const { page } = await openRecord('tarn-4');
    const { revision } = await server.ledger.head('tarn-4');
    await page.context().setOffline(true);
    await takeIn(page, { name: 'clip.mp4', mimeType: 'video/mp4', buffer: Buffer.from('a clip') });
    const alert = page.getByRole('alert');
    await alert
      .getByText(/^clip\.mp4 was not taken in, and nothing was put on record\. The server did not answer/)
      .waitFor();
    expect((await server.ledger.head('tarn-4')).revision).toBe(revision);
    await page.context().setOffline(false);
    // What was chosen is still chosen: one more press sends it.
    await page.getByRole('button', { name: 'Take it in' }).press('Enter');
    await page.getByText(/^clip\.mp4 is on record as video-/).waitFor();
    await page.context().close();
  },
);

const MEGABYTES = 50;
/** Less than the whole of it; chunks that are done with count until they are collected, which a busy machine puts off [bytes]. */
const MOST_HELD = (MEGABYTES - 8) * 2 ** 20;

test(`a recording of ${MEGABYTES} MB is streamed: neither page nor server holds it as a whole`, PATIENT, async () => {
  const file = join(root.path, sha256Of(Buffer.from('clip')));
  const bytes = Buffer.alloc(MEGABYTES * 1024 * 1024);
  for (let at = 0; at < bytes.length; at += 4) bytes.writeUInt32LE(Math.imul(at, 2_654_435_761) >>> 0, at);
  writeFileSync(file, bytes);
  const { page } = await openRecord('tarn-4');
  const session = await page.context().newCDPSession(page);
  const heap = async () => (await session.send('Runtime.getHeapUsage')).usedSize;
  const [pageBefore, serverBefore] = [await heap(), process.memoryUsage().arrayBuffers];
  let most = 0;
  const looking = setInterval(() => {
    most = Math.max(most, process.memoryUsage().arrayBuffers - serverBefore);
  }, 2);
  await takeIn(page, file);
  await page.getByText(new RegExp(`is on record as document-.*, ${(bytes.length / 1e6).toFixed(1)} MB`)).waitFor();
  clearInterval(looking);
  const sha256 = sha256Of(bytes);
  expect(await onRecord('tarn-4', sha256)).toHaveLength(1);
  expect(existsSync(join(server.folder, 'evidence', sha256.slice(0, 2), sha256))).toBe(true);
  expect((await heap()) - pageBefore).toBeLessThan(MOST_HELD);
  expect(most).toBeGreaterThan(0);
  expect(most).toBeLessThan(MOST_HELD);
  await page.context().close();
});
