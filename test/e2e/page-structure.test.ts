import { randomUUID } from 'node:crypto';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { share } from '../share.ts';
import { launchBrowser } from './browser.ts';
import { brokenRules, SHEETS, tooSmallOrWide } from './look-closely.ts';
import { type PageServer, servePage } from './page-server.ts';

/** The battery was tried before the cover was off; one mark was never named. */
const TRIED_EARLY: Assessment = {
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn 5', category: 'smartphone' },
  specimens: { one: {} },
  parts: { cover: { name: 'Cover', role: 'back-cover' }, battery: { name: 'Battery', role: 'battery' } },
  sessions: {
    m1: {
      kind: 'measured',
      specimen: 'one',
      start: '2026-11-25T09:00:00+00:00',
      startsAs: 'complete',
      entries: {
        e0: { at: 20, do: 'lift', target: 'battery', outcome: 'failed', because: 'blocked' },
        e1: { at: 40, do: 'lift', target: 'cover', naming: 'suggested' },
        e2: { at: 50 },
        e3: { at: 60, do: 'lift', target: 'battery', naming: 'by-hand' },
      },
    },
  },
};

const screw = (between: [string, string], behind?: string[][]) => ({
  kind: 'screw' as const,
  between,
  ways: { turn: { actions: [{ do: 'unscrew' as const, tools: ['driver'] }], leaves: 'reusable' as const } },
  ...(behind === undefined ? {} : { behind }),
});

/** Cover, coil and battery came off one after another: nobody tried whether the battery comes with the coil in. */
const STACK: Assessment = {
  ...TRIED_EARLY,
  parts: {
    cover: { name: 'Cover', role: 'back-cover', behind: [] },
    coil: { name: 'Coil', behind: [['cover']] },
    battery: { name: 'Battery', role: 'battery' },
  },
  tools: { driver: { name: 'Driver' } },
  fasteners: {
    'cover-screws': { ...screw(['cover', 'chassis'], []), name: 'Cover screws' },
    'coil-screws': { ...screw(['coil', 'chassis'], [['cover']]), name: 'Coil screws' },
    'battery-screws': { ...screw(['battery', 'chassis']), name: 'Battery screws' },
  },
  sessions: {
    m1: {
      kind: 'measured',
      specimen: 'one',
      start: '2026-11-25T09:00:00+00:00',
      startsAs: 'complete',
      entries: {
        e1: { at: 10, do: 'unscrew', target: 'cover-screws', tools: ['driver'] },
        e2: { at: 20, do: 'lift', target: 'cover' },
        e3: { at: 30, do: 'unscrew', target: 'coil-screws', tools: ['driver'] },
        e4: { at: 40, do: 'lift', target: 'coil' },
        e5: { at: 50, do: 'unscrew', target: 'battery-screws', tools: ['driver'] },
        e6: { at: 60, do: 'lift', target: 'battery' },
      },
    },
  },
};

let server: PageServer;
let browser: Browser;

beforeAll(async () => {
  server = await servePage(['quick-log']);
  const head = { change: randomUUID(), author: 'test', at: '2026-11-25T10:00:00+00:00' };
  await server.ledger.create({ ...head, assessment: 'tried-early', document: TRIED_EARLY });
  await server.ledger.create({ ...head, change: randomUUID(), assessment: 'stack', document: STACK });
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

interface Opened {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly said: string[];
}

const openStructure = async (
  assessment: string,
  options: Parameters<Browser['newContext']>[0] = {},
): Promise<Opened> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  const said: string[] = [];
  page.on('console', (message) => message.type() === 'error' && said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  await page.goto(new URL(`/a/${assessment}/structure`, server.url).href);
  await picture(page).waitFor();
  return { context, page, said };
};

const picture = (page: Page) => page.getByRole('listbox', { name: /^Depth section/ });
const documentOf = async (assessment: string) => (await server.ledger.head(assessment)).document;

test('one part is answered for by sight, by keyboard alone, and the ledger has it', { timeout: 120_000 }, async () => {
  const { context, page, said } = await openStructure('quick-log');
  await picture(page).focus();
  const battery = await picture(page)
    .getByRole('option', { name: /^battery,/i })
    .getAttribute('id');
  for (let count = 0; count < 40; count += 1) {
    if ((await picture(page).getAttribute('aria-activedescendant')) === battery) break;
    await page.keyboard.press('ArrowDown');
  }
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: /^battery: what had to be off/i }).waitFor();
  const ticked = page.getByRole('group', { name: 'All of these' }).getByRole('checkbox', { checked: true });
  const before = await ticked.count();
  expect(before).toBeGreaterThan(1);
  await ticked.last().focus();
  await page.keyboard.press('Space');
  await expect.poll(() => ticked.count()).toBe(before - 1);
  await page.getByRole('button', { name: /^Write it/ }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'As recorded' }).waitFor();
  await expect
    .poll(async () => (await documentOf('quick-log')).parts?.battery?.behind?.map((set) => set.length))
    .toEqual([before - 1]);
  const changes = await server.ledger.changes('quick-log', 1);
  expect(changes.at(-1)?.patch.at(-1)).toMatchObject({ op: 'add', path: '/parts/battery/behind' });
  expect(said).toEqual([]);
  await context.close();
});

test('what the log proves otherwise is said before it is written, and a name is confirmed', async () => {
  const { context, page } = await openStructure('tried-early');
  await page.getByRole('table').getByRole('button', { name: 'Battery' }).click();
  await page.getByRole('radio', { name: 'Nothing had to be off' }).check();
  await page.getByText(/session m1, 0:00:20, lift Battery: failed, blocked: it did not come/).waitFor();
  await page.getByRole('button', { name: 'Write it all the same' }).waitFor();
  expect((await documentOf('tried-early')).parts?.battery?.behind).toBeUndefined();
  await page.getByText('1 mark has no name yet').waitFor();
  await page.getByRole('button', { name: /^So it was: lift Cover/ }).press('Enter');
  await expect.poll(async () => (await documentOf('tried-early')).sessions?.m1?.entries.e1?.reviewed).toBe(true);
  await page.getByText('No suggested name waits.').waitFor();
  await context.close();
});

test('a fastener is answered for by sight from its part, and a trial is made, written and taken back', async () => {
  const { context, page, said } = await openStructure('stack');
  await picture(page)
    .getByRole('option', { name: /^Battery,/ })
    .locator('text')
    .click();
  await page.getByRole('region', { name: 'What holds it' }).getByRole('button', { name: 'Battery screws' }).click();
  await page.getByRole('heading', { name: 'Battery screws: what had to be off to reach it?' }).waitFor();
  const ticked = page.getByRole('group', { name: 'All of these' }).getByRole('checkbox', { checked: true });
  expect(await ticked.count()).toBe(4);
  for (const name of ['Cover screws', 'Coil screws', 'Coil'])
    await page.getByRole('checkbox', { name, exact: true }).uncheck();
  await page.getByRole('button', { name: 'Write it' }).click();
  await expect.poll(async () => (await documentOf('stack')).fasteners?.['battery-screws']?.behind).toEqual([['cover']]);

  const trial = page.getByRole('group', { name: 'Does Battery come while Coil is still on?' });
  await trial.getByRole('button', { name: 'Came', exact: true }).press('Enter');
  await page.getByText('Battery: came, written.').waitFor();
  const made = async () => Object.values((await documentOf('stack')).parts?.battery?.trials ?? {});
  await expect.poll(async () => (await made()).map(({ came, specimen }) => [came, specimen])).toEqual([['yes', 'one']]);
  expect([...((await made())[0]?.off ?? [])].sort()).toEqual(['battery-screws', 'cover', 'cover-screws']);
  await page.getByText('No single trial moves a priority part.').waitFor();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect.poll(made).toEqual([]);
  await trial.waitFor();
  expect(said).toEqual([]);
  await context.close();
});

test.each([820, 390])('at %i px the question stands in sight beside the picture it is asked of', async (width) => {
  const { context, page } = await openStructure('stack', { viewport: { width, height: 600 } });
  const question = page.getByRole('heading', { name: /what had to be off/i });
  const isInSight = async () => {
    const box = await question.boundingBox();
    return box !== null && box.y >= 0 && box.y + box.height <= 600;
  };
  expect(await isInSight()).toBe(true);
  await picture(page)
    .getByRole('option', { name: /^Cover,/ })
    .locator('text')
    .click();
  await page.getByRole('heading', { name: 'Cover: what had to be off?' }).waitFor();
  expect(await isInSight()).toBe(true);
  const drawn = await picture(page)
    .getByRole('option', { name: /^Cover,/ })
    .boundingBox();
  expect(drawn !== null && drawn.y > 0 && drawn.y < 600).toBe(true);
  await context.close();
});

test.each(SHEETS.slice(0, share(1, 6)))(
  'the structure is clean at $width px on the $sheet sheet',
  { timeout: 120_000 },
  async ({ width, sheet }) => {
    const { context, page, said } = await openStructure('quick-log', {
      colorScheme: sheet,
      viewport: { width, height: 900 },
      reducedMotion: 'reduce',
    });
    expect(await brokenRules(page)).toEqual([]);
    expect(await tooSmallOrWide(page)).toEqual({ small: [], over: 0 });
    await picture(page)
      .getByRole('option', { name: /^speaker,/i })
      .locator('text')
      .click();
    await page.getByRole('heading', { name: /^speaker: what had to be off/i }).waitFor();
    expect(await brokenRules(page)).toEqual([]);
    expect(await tooSmallOrWide(page)).toEqual({ small: [], over: 0 });
    expect(said).toEqual([]);
    await context.close();
  },
);
