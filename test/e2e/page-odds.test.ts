import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchBrowser } from './browser.ts';
import { brokenRules, tooSmallOrWide } from './look-closely.ts';
import { type PageServer, servePage } from './page-server.ts';

/** A browser test takes seconds alone, and minutes beside other work. */
const PATIENT = { timeout: 240_000 };
/** Of four questions that guarantee the same, the last. */
const LAST_OF_EQUALS = 'parts/display/remoteNotification';

let server: PageServer;
let browser: Browser;

beforeAll(async () => {
  server = await servePage(['beck-11']);
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const oddsFile = (questions: string) => ({
  name: 'mine.yaml',
  mimeType: 'application/yaml',
  buffer: Buffer.from(`format: unfasten/odds\nversion: 1\nby: A. B.\nquestions:\n${questions}`),
});

const panelOf = (page: Page) => page.getByRole('region', { name: 'What to settle next' });
const placeOf = async (page: Page, asks: RegExp): Promise<number> => {
  const heads = await panelOf(page).getByRole('heading', { level: 3 }).allTextContents();
  return heads.findIndex((words) => asks.test(words)) + 1;
};

test(
  'odds of answers are given by keyboard, rank equals, and are kept in this browser and not in the record',
  PATIENT,
  async () => {
    const context = await browser.newContext({ viewport: { width: 390, height: 900 }, colorScheme: 'dark' });
    context.setDefaultTimeout(90_000);
    const page = await context.newPage();
    await page.goto(new URL('/a/beck-11/verdict', server.url).href);
    const panel = panelOf(page);
    const asks = /Display.* notification/;
    const item = panel.getByRole('listitem').filter({ has: page.getByRole('heading', { name: asks }) });
    const opener = item.getByRole('button', { name: /^Odds of its answers: / });
    await opener.waitFor();
    expect(await placeOf(page, asks)).toBe(7);

    await opener.focus();
    for (const key of ['Enter', 'Tab', 'Tab']) await page.keyboard.press(key);
    await page.keyboard.type('one');
    await page.keyboard.press('Enter');
    await item.getByText('write a number from 0 up, or a fraction such as 1/3').waitFor();
    expect([
      await item.getByText('give a weight, 0 if it is ruled out').count(),
      await item.getByText('say whose odds they are').count(),
    ]).toEqual([1, 1]);
    expect(await brokenRules(page)).toEqual([]);
    expect((await tooSmallOrWide(page)).over).toBe(0);
    for (const [index, words] of ['1/3', '0', 'M. R.', 'as ever'].entries()) {
      await page.keyboard.press(index === 0 ? 'ControlOrMeta+a' : 'Tab');
      await page.keyboard.type(words);
    }
    await page.keyboard.press('Enter');
    await panel
      .getByText(
        /^Among equals by the odds of M\. R\. \(as ever\), .*By them no chance is shown that a letter stated now holds/,
      )
      .waitFor();
    expect(await placeOf(page, asks)).toBe(4);
    const heading = panel.getByRole('heading', { name: 'What to settle next' });
    expect(await heading.evaluate((element) => element === document.activeElement)).toBe(true);
    expect((await server.ledger.head('beck-11')).revision).toBe(1);

    const file = panel.getByLabel('Load odds (YAML or JSON)');
    await panel.getByText('Odds from a file, or to one').click();
    await file.setInputFiles(oddsFile(`  ${LAST_OF_EQUALS}: { yes: 1, no: -1 }\n`));
    await panel.getByText('mine.yaml was not taken; the odds are as before.').waitFor();
    await panel.getByText(new RegExp(`mine\\.yaml:5:\\d+ questions/${LAST_OF_EQUALS}/no: `)).waitFor();
    await expect.poll(() => placeOf(page, asks), PATIENT).toBe(4);
    expect(await brokenRules(page)).toEqual([]);

    await page.reload();
    await panel.getByText(/^Among equals by the odds of M\. R\./).waitFor();
    await panel.getByText('Odds from a file, or to one').click();
    await file.setInputFiles(oddsFile(`  parts/gone/pairing: { yes: 1 }\n  ${LAST_OF_EQUALS}: { yes: 1, no: 1 }\n`));
    await panel.getByText(/^Among equals by the odds of A\. B\., taken/).waitFor();
    await panel.getByText(/mine\.yaml:5:3 questions\/parts\/gone\/pairing: this is no open question/).waitFor();
    await panel.getByRole('button', { name: 'Take all odds away' }).click();
    await panel.getByText(/^No odds of answers are given\./).waitFor();
    expect(await placeOf(page, asks)).toBe(7);
    await context.close();
  },
);
