import { randomUUID } from 'node:crypto';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Assessment, Session } from '#record/schema/assessment';
import { launchBrowser } from './browser.ts';
import { brokenRules } from './look-closely.ts';
import { type PageServer, servePage } from './page-server.ts';

/** A battery that nothing holds any more once it is unplugged, and a bracket and a cover that nobody looked behind. */
const PRODUCT: Assessment = {
  format: 'unfasten/assessment',
  version: 1,
  invented: true,
  product: { name: 'Tarn small' },
  specimens: { a: { name: 'Specimen A' } },
  parts: {
    battery: { name: 'battery', role: 'battery' },
    bracket: { name: 'bracket' },
    cover: { name: 'cover' },
  },
  fasteners: {
    flex: { name: 'battery flex', kind: 'connector', between: ['battery', 'chassis'] },
    screws: { name: 'bracket screws', kind: 'screw', count: 8, between: ['bracket', 'chassis'] },
    glue: { name: 'cover glue', kind: 'adhesive', between: ['cover', 'chassis'] },
  },
};

let server: PageServer;
let browser: Browser;

beforeAll(async () => {
  server = await servePage([]);
  for (const assessment of ['touched', 'typed', 'asleep'])
    await server.ledger.create({
      assessment,
      change: randomUUID(),
      author: 'test',
      at: '2026-11-25T10:00:00+00:00',
      document: PRODUCT,
    });
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

interface Bench {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly document: () => Promise<Assessment>;
  readonly session: () => Promise<Session>;
}

const openBench = async (assessment: string, options: Parameters<Browser['newContext']>[0] = {}): Promise<Bench> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  context.setDefaultTimeout(15_000);
  const page = await context.newPage();
  // A second wall clock that a test can put on, as a sleep does.
  await page.addInitScript(() => {
    const now = Date.now.bind(Date);
    const put = window as unknown as { asleepMilliseconds?: number };
    Date.now = () => now() + (put.asleepMilliseconds ?? 0);
  });
  await page.goto(new URL(`/a/${assessment}/bench`, server.url).href);
  await page.getByRole('button', { name: /^Begin; the clock starts/ }).click();
  await page.getByRole('timer').waitFor();
  const document = async () => (await server.ledger.head(assessment)).document as Assessment;
  const session = async () => Object.values((await document()).sessions ?? {})[0] as Session;
  return { context, page, document, session };
};

const lines = (page: Page) => page.getByRole('list', { name: 'Log of this session' }).getByRole('listitem');
const question = (page: Page) => page.getByRole('region', { name: 'Before you go on' });
const onDisk = (page: Page) => page.getByText(/^All on disk/).waitFor();
const say = async (page: Page, line: string): Promise<void> => {
  await page.keyboard.press('/');
  await page.keyboard.type(line);
  await page.keyboard.press('Enter');
};

test('a typed act waits for the question it would close; waving it off leaves a trace', async () => {
  const { context, page, document, session } = await openBench('typed');
  await say(page, 'unplug battery flex');
  await say(page, 'lift bracket free');
  await question(page).getByText('Bracket: still in. Does battery come with it in?').waitFor();
  await question(page)
    .getByText(/Waiting, its time marked/)
    .waitFor();
  expect(await lines(page).last().textContent()).toContain('not named yet');
  expect(await brokenRules(page)).toEqual([]);
  await page.keyboard.press('Enter');
  expect(await lines(page).count()).toBe(2);
  await page.keyboard.press('4');
  await expect.poll(() => lines(page).last().textContent()).toContain('lift bracket: free');
  await page.getByText('not tried', { exact: true }).waitFor();
  await onDisk(page);
  const { parts } = await document();
  expect(parts?.battery?.trials).toBeUndefined();
  const [untried] = Object.values(parts?.battery?.untried ?? {});
  expect(untried).toMatchObject({ off: ['flex'], stillIn: ['bracket'], specimen: 'a' });
  const last = Object.values((await session()).entries).at(-1);
  expect(last).toMatchObject({ do: 'lift', target: 'bracket', named: 'at-once', naming: 'by-hand' });

  await say(page, 'lift cover free');
  await question(page).getByText('Cover: still in.').waitFor();
  await page.keyboard.press('u');
  await question(page).waitFor({ state: 'detached' });
  expect(await lines(page).last().textContent()).toContain('not named yet');
  await page.keyboard.press('u');
  await expect.poll(() => lines(page).count()).toBe(2);

  await say(page, 'incident cell hisses -- left corner');
  const sheet = page.getByRole('dialog', { name: 'Incident' });
  await sheet.getByText('cell hisses – left corner').waitFor();
  await sheet.getByLabel('What happened').fill('taken outdoors');
  await sheet.getByRole('button', { name: 'Add to the record' }).press('Enter');
  await sheet.getByText('taken outdoors').waitFor();
  expect(await brokenRules(page)).toEqual([]);
  await sheet.getByRole('button', { name: /^Back to the bench/ }).press('Enter');
  await page.getByText('hold: incident').first().waitFor();
  await onDisk(page);
  expect(Object.values((await document()).damage ?? {})).toMatchObject([
    { what: 'incident', severity: 'safety', note: 'cell hisses – left corner\ntaken outdoors' },
  ]);
  await context.close();
});

test('by touch: the act of a tile waits too; a retake is begun and ended; a heat that was ended goes on again', async () => {
  const phone = { hasTouch: true, viewport: { width: 390, height: 844 } };
  const { context, page, document, session } = await openBench('touched', phone);
  const tile = (name: string) => page.getByRole('button', { name, exact: true });
  await tile('unplug').tap();
  await tile('battery flex').tap();
  await tile('retake').tap();
  await page.getByText('retake: unplug battery flex').first().waitFor();
  await tile('unplug').tap();
  await tile('battery flex').tap();
  await tile('retake ends').tap();
  await expect.poll(() => lines(page).last().textContent()).toContain('the session goes on');

  await tile('lift').tap();
  await tile('bracket').tap();
  await question(page)
    .getByRole('button', { name: /did not come/ })
    .tap();
  await expect.poll(() => lines(page).last().textContent()).toContain('lift bracket: free');

  await page.getByRole('button', { name: /heat, soak or cure begins/ }).tap();
  await page.getByLabel('What and where').fill('rear');
  await page.getByRole('button', { name: 'Begin', exact: true }).tap();
  await tile('End: rear').tap();
  await expect.poll(() => lines(page).last().textContent()).toContain('heat');
  await page.getByRole('button', { name: /undo/ }).tap();
  await tile('End: rear').waitFor();
  await expect.poll(() => lines(page).last().textContent()).toContain('going on, rear');
  await onDisk(page);
  const { entries, retakes } = await session();
  const [first, again] = Object.entries(entries);
  const [retake] = Object.values(retakes ?? {});
  expect(retake?.repeats).toBe(first?.[0]);
  expect(again?.[1].at).toBeGreaterThanOrEqual(retake?.from ?? Number.POSITIVE_INFINITY);
  expect(again?.[1].at).toBeLessThanOrEqual(retake?.to ?? 0);
  expect(Object.values((await document()).parts?.battery?.trials ?? {})).toMatchObject([{ came: 'no', off: ['flex'] }]);
  await context.close();
});

test('a machine that slept offers the pause with its reason; then a count with a reason, and new fasteners', async () => {
  const { context, page, document, session } = await openBench('asleep');
  await page.keyboard.press('Space');
  await say(page, 'retake');
  await page.keyboard.press('r');
  await page.evaluate(() => {
    (window as unknown as { asleepMilliseconds: number }).asleepMilliseconds = 600_000;
  });
  await page.getByText(/This machine slept for 600 s/).waitFor();
  await page.getByRole('button', { name: 'It was a pause' }).press('Enter');
  await page.getByText('hold: machine slept').waitFor();
  await expect.poll(() => page.getByRole('timer').textContent()).toMatch(/^0:10:/);
  await page.keyboard.press('Space');
  await onDisk(page);
  const { holds, entries, retakes } = await session();
  const [hold] = Object.values(holds ?? {});
  expect(hold?.reason).toBe('machine slept');
  expect((hold?.to ?? 0) - (hold?.from ?? 0)).toBeGreaterThan(599);
  expect(Object.values(entries).at(-1)?.at).toBeGreaterThanOrEqual(hold?.to ?? Number.POSITIVE_INFINITY);
  expect(Object.keys(retakes ?? {})).toHaveLength(1);
  await say(page, '7 of 8 screw bracket, stripped');
  await expect.poll(() => lines(page).last().textContent()).toContain('unscrew 7 of 8 bracket screws: stripped');
  await say(page, '3 screw ph000 antenna plate');
  await say(page, 'unplug cover');
  await expect.poll(() => lines(page).last().textContent()).toContain('unplug cover connector');
  await onDisk(page);
  const { parts, fasteners } = await document();
  expect(Object.keys(parts ?? {})).toEqual(Object.keys(PRODUCT.parts ?? {}));
  expect(fasteners?.['antenna-plate-screws']).toEqual({
    name: 'antenna plate screws',
    kind: 'screw',
    count: 3,
    drive: 'PH000',
  });
  expect(fasteners?.['cover-connector']).toMatchObject({ kind: 'connector', between: ['cover', 'chassis'] });
  await context.close();
});
