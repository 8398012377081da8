import { readFileSync } from 'node:fs';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { share } from '../share.ts';
import { launchBrowser } from './browser.ts';
import { brokenRules, SHEETS, tooSmallOrWide } from './look-closely.ts';
import { type PageServer, servePage } from './page-server.ts';

/** A browser test takes seconds alone, and a minute beside other work. */
const PATIENT = { timeout: 240_000 };

const file = new URL('../../examples/tarn-5/assessment.yaml', import.meta.url);
const tarn = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;

/** The second campaign of the example as it stood after a run: specimens C and D alone. */
const afterRun = (last: number): Assessment => {
  const made = Object.entries(tarn.swaps ?? {}).filter(
    ([, { specimen, run = 0 }]) => (specimen === 'c' || specimen === 'd') && run <= last,
  );
  return { ...tarn, swaps: Object.fromEntries(made) };
};

let server: PageServer;
let browser: Browser;

beforeAll(async () => {
  server = await servePage(['tarn-5', 'tarn-4'], { documents: { begun: afterRun(21) } });
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

interface Visit {
  readonly page: Page;
  readonly said: string[];
}

const visit = async (path: string, options: Parameters<Browser['newContext']>[0] = {}): Promise<Visit> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  const said: string[] = [];
  page.on('pageerror', (error) => said.push(error.message));
  page.on('dialog', (dialog) => {
    said.push(dialog.message());
    void dialog.dismiss();
  });
  await page.goto(new URL(path, server.url).href);
  await page.getByRole('navigation', { name: 'Views of the swaps' }).waitFor();
  return { page, said };
};

const isFocused = (locator: Locator) => locator.evaluate((element) => element === document.activeElement);

/** Goes on with the tabulator until something has the focus. */
const tabTo = async (page: Page, locator: Locator): Promise<void> => {
  for (let presses = 0; presses < 150; presses += 1) {
    if (await isFocused(locator)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`the tabulator does not lead to ${locator}`);
};

const type = async (page: Page, locator: Locator, text: string): Promise<void> => {
  await tabTo(page, locator);
  await page.keyboard.type(text);
};

const part = (page: Page, name: string) => page.getByRole('region', { name, exact: true });
const HOSTILE = '<img src=x onerror=alert(1)>\u202e لا يمكن';

test('a verdict is read, a run entered by keyboard alone, and the diagnosis takes it in', PATIENT, async () => {
  const { page, said } = await visit('/a/tarn-5/swaps/findings');
  const coil = part(page, 'Charging coil');
  await coil
    .getByText(/in both directions, reproduced twice: a foreign piece is refused.*Cause: pairing, reversible/)
    .waitFor();
  const mended = coil.getByRole('listitem').filter({ hasText: 'bug, not mended' });
  await mended.getByRole('button', { name: 'run 27' }).focus();
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog', { name: 'Run 27, Charging coil' });
  await dialog.getByText('authorised step').waitFor();
  await page.keyboard.press('Escape');
  await expect.poll(() => isFocused(mended.getByRole('button', { name: 'run 27' }))).toBe(true);
  const cell = page
    .getByRole('table', { name: /^Effects of foreign parts/ })
    .getByRole('row', { name: /^Charging coil/ })
    .getByRole('cell')
    .last();
  expect(await cell.textContent()).toMatch(/^E5, seen onceE5 in 1 run; 1 host/);

  await page.getByRole('link', { name: 'Run sheet' }).focus();
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('button', { name: 'Begin a run of it' }));
  await page.keyboard.press('Enter');
  await expect.poll(() => isFocused(page.getByRole('heading', { name: /^Run \d+/ }))).toBe(true);
  await type(page, page.getByLabel('Part that is looked at'), 'Charging coil');
  await tabTo(page, page.getByRole('button', { name: 'Add it to this run' }));
  await page.keyboard.press('Enter');
  await page.keyboard.press('Shift+Tab');
  await page.getByRole('heading', { name: /^Run \d+: Specimen C, firmware 5\.1\.0$/ }).waitFor();
  await page.getByLabel('Firmware of Specimen C').focus();
  await type(page, page.getByLabel('Piece that goes in'), 'that of Specimen D');
  await page.getByText('Charging coil: from Specimen D into Specimen C.').waitFor();
  await tabTo(page, page.getByRole('group', { name: 'Closed up' }).getByLabel('yes'));
  await page.keyboard.press('Space');
  const pad = page.getByRole('group', { name: /^charges on a pad/ });
  await tabTo(page, pad.getByLabel('pass'));
  await page.keyboard.press('ArrowRight');
  await tabTo(page, page.getByRole('radio', { name: /^E0/ }));
  for (let code = 0; code < 5; code += 1) await page.keyboard.press('ArrowDown');
  await type(page, page.getByLabel('Its wording, word for word'), 'This pad cannot be used.');
  await type(page, page.getByLabel(/^Where:/), 'on the pad');
  await tabTo(page, page.getByRole('group', { name: 'Can be put away at once' }).getByLabel('yes'));
  await page.keyboard.press('ArrowRight');
  await type(page, page.getByLabel(/^When it comes again/), 'each time');
  await tabTo(page, page.getByRole('button', { name: 'Add a measurement' }));
  await page.keyboard.press('Enter');
  await page.keyboard.press('Shift+Tab');
  await page.getByLabel('function measured').focus();
  await page.keyboard.type('power on the pad');
  await type(page, page.getByLabel('with the own part'), 'about 5');
  await type(page, page.getByLabel('as fitted now'), '0.3 W');
  await page.keyboard.press('Enter');
  // What is no quantity is said at the field and at the end; nothing typed is gone.
  await page.getByText('Not saved yet.').waitFor();
  await page.getByLabel('with the own part').focus();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('5.1 ± 0.1 W');
  await page.keyboard.press('Enter');
  await page.getByText(/^Run \d+ is saved\.$/).waitFor();
  await page.getByText(/^All on disk/).waitFor();
  const { document } = await server.ledger.head('tarn-5');
  const [made] = Object.entries(document.swaps ?? {}).filter(([id]) => !tarn.swaps?.[id]);
  expect(made?.[1]).toMatchObject({
    specimen: 'c',
    part: 'coil',
    fitted: 'foreign',
    donor: { specimen: 'd' },
    arm: 'cross',
    firmware: '5.1.0',
    effect: 'E5',
    closed: true,
    checks: { 'charge-pad': 'fail' },
    notice: { wording: 'This pad cannot be used.', where: 'on the pad', dismissible: false, returns: 'each time' },
    measured: [{ of: 'power on the pad', before: '5.1 ± 0.1 W', after: '0.3 W' }],
  });

  await page.getByRole('link', { name: 'What the runs say' }).focus();
  await page.keyboard.press('Enter');
  await cell.filter({ hasText: /^E5E5 in 2 runs; 2 hosts/ }).waitFor();
  await coil.locator('summary').focus();
  await page.keyboard.press('Enter');
  await coil
    .getByRole('button', { name: `run ${made?.[1].run}` })
    .last()
    .waitFor();
  expect(said).toEqual([]);
  await page.context().close();
});

test(
  'on a tablet by touch the suggested run is broken off without a network, gone on with and saved; the next one follows',
  PATIENT,
  async () => {
    const { page, said } = await visit('/a/begun/swaps', { viewport: { width: 820, height: 1180 }, hasTouch: true });
    await page.getByRole('heading', { name: 'Next run' }).waitFor();
    await page.getByText(/^Run 22: Specimen [CD], firmware 5\.0\.1$/).waitFor();
    await page.getByRole('button', { name: 'Make this run' }).tap();
    const small = await page
      .locator('form button, form label:has(input), form select, form input[type=text], form summary')
      .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 56).map((one) => one.outerHTML));
    expect(small).toEqual([]);
    await page.getByRole('button', { name: /^It is started/ }).tap();
    await page.getByLabel('Note').first().fill(HOSTILE);
    await page.context().setOffline(true);
    await page.getByRole('button', { name: 'Break off, go on later' }).tap();
    await page.getByText('Run 22 is kept as broken off; it waits below.').waitFor();
    await page.context().setOffline(false);
    await page.getByText(/^All on disk/).waitFor();
    await page.getByRole('button', { name: 'Go on with run 22', exact: true }).tap();
    await page.getByRole('button', { name: /^Every function of every part passes/ }).tap();
    await page.getByRole('button', { name: 'Save run 22' }).tap();
    await page.getByText('Run 22 is saved.').waitFor();
    await page.getByText(/^All on disk/).waitFor();
    await page.getByText(/^Run 23: Specimen/).waitFor();
    const { document } = await server.ledger.head('begun');
    const made = Object.entries(document.swaps ?? {}).filter(([, { run }]) => run === 22);
    const [broken, whole] = [made.filter(([, fit]) => fit.interrupted), made.filter(([, fit]) => !fit.interrupted)];
    expect(broken.length).toBeGreaterThan(0);
    expect(new Set(whole.map(([, { corrects }]) => corrects))).toEqual(new Set(broken.map(([id]) => id)));
    expect(whole.map(([, { effect }]) => effect)).toEqual(whole.map(() => 'E0'));
    expect(made.filter(([, { note }]) => note === HOSTILE)).toHaveLength(2);
    expect(said).toEqual([]);
    await page.context().close();
  },
);

test.each(SHEETS.slice(0, share(1, 6)))(
  'the swap screens at %o: no rule of WCAG 2.2 AA broken, nothing too small or wide',
  PATIENT,
  async (look) => {
    const { page } = await visit('/a/tarn-5/swaps/findings', {
      viewport: { width: look.width, height: 900 },
      colorScheme: look.sheet,
      reducedMotion: 'reduce',
    });
    const lookClosely = async () => {
      expect(await brokenRules(page)).toEqual([]);
      const { small, over } = await tooSmallOrWide(page);
      expect([small, over]).toEqual([[], 0]);
    };
    await part(page, 'Charging coil').locator('summary').click();
    await lookClosely();
    await page.getByRole('link', { name: 'Run sheet' }).click();
    await page.getByRole('button', { name: 'Begin a run of it' }).click();
    await page.getByRole('button', { name: 'Add it to this run' }).click();
    await page.getByLabel('Piece that goes in').selectOption('specimen:d');
    await page.getByRole('radio', { name: /^E6/ }).check();
    await page.getByRole('button', { name: 'Change the list' }).click();
    await lookClosely();
    await page.context().close();
  },
);
