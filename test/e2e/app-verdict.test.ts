import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { DUTY_MARK_WORDS, DUTY_STATE_WORDS } from '#schemes/duties/duty-words';
import { computeVerdict } from '#verdict/compute-verdict';
import { dutiesOf } from '#verdict/duties/duties-of';
import { readLaboratory } from '#verdict/laboratory/read-laboratory';
import { share } from '../share.ts';
import { launchBrowser } from './browser.ts';
import { brokenRules, tooSmallOrWide } from './look-closely.ts';
import { type PageServer, servePage } from './page-server.ts';

/** An exact verdict of the largest example takes seconds of processor time, more where others use it too. */
const PATIENT = { timeout: 240_000 };

let server: PageServer;
let browser: Browser;

beforeAll(async () => {
  // What is answered in one test is open in the others.
  const file = new URL('../../examples/tarn-5/assessment.yaml', import.meta.url);
  const { assessment } = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) });
  server = await servePage(['tarn-5', 'gust-2', 'tarn-4', 'beck-11'], {
    documents: { 'tarn-5-open': assessment as Assessment },
  });
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const openScreen = async (path: string, options: Parameters<Browser['newContext']>[0] = {}): Promise<Page> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  context.setDefaultTimeout(90_000);
  const page = await context.newPage();
  await page.goto(new URL(path, server.url).href);
  await page.getByText(/(?:Figures|Routes) of revision \d+\.$/).waitFor();
  return page;
};

test('the links to sections lead past them: a figure of the battery is a few presses away', PATIENT, async () => {
  const page = await openScreen('/a/beck-11/verdict');
  for (const key of ['Tab', 'Enter', 'Tab']) await page.keyboard.press(key);
  const links = page.getByRole('navigation', { name: 'Sections of this screen' }).getByRole('link');
  const names = await links.allTextContents();
  expect([names[0], names.at(-1)]).toEqual(['What to settle next', 'Legal duties']);
  const place = names.indexOf('Priority parts');
  for (let presses = 0; presses < place; presses++) await page.keyboard.press('Tab');
  expect((await links.and(page.locator(':focus')).boundingBox())?.x).toBeGreaterThan(0);
  for (const key of ['Enter', 'Tab']) await page.keyboard.press(key);
  expect(await page.locator(':focus').getAttribute('aria-label')).toMatch(/: Battery, steps, /);
  expect((await links.first().boundingBox())?.x).toBeLessThan(0);
  await page.context().close();
});

const indexOf = (page: Page) =>
  page.getByRole('table', { name: 'Index and scores on each basis' }).getByRole('row', { name: /Index R/ });

test(
  'a reading is switched: the effect foretold is the effect that comes, and the ledger has it',
  PATIENT,
  async () => {
    const page = await openScreen('/a/tarn-5/verdict');
    const before = await indexOf(page).textContent();
    const question = page.getByRole('group', { name: 'Is taking up the first tool a change of tool?' });
    const [usual, other] = await question.getByRole('radio').all();
    expect(await usual?.isChecked()).toBe(true);
    const told = await question.locator('p', { hasText: /^observed: R / }).textContent();
    const [, foretold] = /→ ([\d.]+) to/.exec(told ?? '') ?? [];
    await other?.check();
    expect(await other?.isChecked()).toBe(true);
    await page.getByText('Figures of revision 2.').waitFor();
    await expect.poll(() => indexOf(page).textContent(), { timeout: 90_000 }).not.toBe(before);
    expect(await indexOf(page).textContent()).toContain(`${foretold} to`);
    await question.getByLabel('reason for this reading').fill('bench meeting of 20 November');
    await page.keyboard.press('Enter');
    await page.getByText('Figures of revision 3.').waitFor();
    const { document } = await server.ledger.head('tarn-5');
    expect(Object.values(document.interpretations ?? {}).map(({ reason }) => reason)).toContain(
      'bench meeting of 20 November',
    );
    await page.context().close();
  },
);

/** The duties of one law lie folded with their tally, and open by keyboard: every row as the record shows it. */
const readDuties = async (page: Page): Promise<void> => {
  const { document } = await server.ledger.head('tarn-5-open');
  const law = 'Regulation (EU) 2023/1542';
  const duties = dutiesOf(document as Assessment).filter((duty) => duty.law === law);
  expect(new Set(duties.map(({ state }) => state)).size).toBeGreaterThan(2);
  const section = page.getByRole('region', { name: 'Legal duties' });
  expect(await section.textContent()).toContain('Observations from the record, not legal advice.');
  const summary = section.locator('summary', { hasText: law });
  const table = section.getByRole('table', { name: `Duties of ${law}` });
  expect(await table.isVisible()).toBe(false);
  for (const [state, words] of Object.entries(DUTY_STATE_WORDS)) {
    const count = duties.filter((duty) => duty.state === state).length;
    const told = (await summary.textContent())?.includes(`${words} ${count}`);
    expect([state, told]).toEqual([state, count > 0]);
  }
  await summary.focus();
  await page.keyboard.press('Enter');
  await table.waitFor();
  for (const { title, clause, state, observed, asks, mark } of duties) {
    const row = table.getByRole('row').filter({ hasText: title });
    const told = ((await row.first().textContent()) ?? '').replaceAll(/\s+/g, ' ');
    for (const words of [clause, DUTY_STATE_WORDS[state], observed, `asks: ${asks}`, DUTY_MARK_WORDS[mark]])
      expect(told).toContain(words.replaceAll(/\s+/g, ' '));
  }
  await page.keyboard.press('Enter');
  await table.waitFor({ state: 'hidden' });
};

test(
  'a figure is walked back by keyboard alone and the focus returns to it; a law is opened and its duties are read',
  PATIENT,
  async () => {
    const page = await openScreen('/a/tarn-5-open/verdict');
    const figure = page.getByRole('button', { name: /Battery, steps, observed; why\?$/ });
    const count = await figure.textContent();
    await figure.focus();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog', { name: 'Battery, steps, observed: why?' });
    await dialog.waitFor();
    const lines = dialog.locator('summary:visible');
    expect(await lines.count()).toBeGreaterThan(1);
    const said = await dialog.textContent();
    expect(said).toContain(`steps from the complete product ${count} steps`);
    expect(said).toMatch(/Annex I \(20\)/);
    await lines.first().focus();
    const shown = await lines.count();
    await page.keyboard.press('ArrowLeft');
    await expect.poll(() => lines.count()).toBe(1);
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => lines.count()).toBe(shown);
    await page.keyboard.press('ArrowDown');
    expect(await lines.nth(1).evaluate((line) => line === document.activeElement)).toBe(true);
    expect(await brokenRules(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    await expect.poll(() => figure.evaluate((button) => button === document.activeElement)).toBe(true);
    await readDuties(page);
    await page.context().close();
  },
);

test(
  'the routes of a part end each step with a reason, and a tool taken away closes parts in words',
  PATIENT,
  async () => {
    const page = await openScreen('/a/tarn-5/routes');
    await page.getByRole('button', { name: 'Display assembly', exact: true }).click();
    const steps = page.getByRole('table', { name: 'Display assembly: best route found' });
    const ends = await steps.getByRole('row').locator('td:last-child').allTextContents();
    expect(ends.length).toBeGreaterThan(3);
    expect(ends.filter((words) => words.trim() === '')).toEqual([]);
    await page.getByRole('checkbox', { name: 'Cross-recess driver PH000' }).uncheck();
    const answer = page.getByRole('table', { name: 'Parts with these tools only' });
    await answer.waitFor();
    expect(await answer.getByRole('row', { name: /^Display assembly/ }).textContent()).toContain(
      'not reached; enough with Cross-recess driver PH000 as well',
    );
    await page.context().close();
  },
);

const LATER: readonly (readonly [question: RegExp, answer: string])[] = [
  [/Display kit/, 'Display adhesive'],
  [/Rear camera/, 'it is not needed'],
];

test(
  'open questions are answered: the first by keyboard narrows R, the last leaves the letter open no more',
  PATIENT,
  async () => {
    const page = await openScreen('/a/tarn-5-open/verdict');
    const observed = page
      .getByRole('region', { name: 'Ruler' })
      .getByRole('listitem')
      .filter({ hasText: /^observed/ });
    expect(await observed.textContent()).toMatch(
      /open: the facts still missing leave class C or D\. Anything from 2\.5125/,
    );
    const asked = page.getByRole('button', { name: /^Answer it: / });
    expect(await asked.first().getAttribute('aria-label')).toMatch(
      /for how many years after the last unit functionality/,
    );
    await asked.first().focus();
    for (const key of ['Enter', 'Tab', 'Space', 'Tab']) await page.keyboard.press(key);
    await page.keyboard.type('M. R.');
    for (const key of ['Tab', 'Tab']) await page.keyboard.press(key);
    await page.keyboard.type('terms of sale, paragraph 4');
    await page.keyboard.press('Enter');
    await page.getByText(/^Written: for how many years .*: seven years or more\.$/).waitFor();
    const heading = page.getByRole('heading', { name: 'What to settle next' });
    expect(await heading.evaluate((element) => element === document.activeElement)).toBe(true);
    await observed.filter({ hasText: 'Anything from 3.1125 to 3.3050' }).waitFor();
    const { document: first } = await server.ledger.head('tarn-5-open');
    expect(first.supply?.software?.functionality).toMatchObject({
      years: 7,
      standing: 'established',
      source: 'M. R.',
      note: 'terms of sale, paragraph 4',
    });
    for (const [question, answer] of LATER) {
      const item = page.getByRole('listitem').filter({ has: page.getByRole('heading', { name: question }) });
      await item.getByRole('button', { name: /^Answer it: / }).click();
      await item.getByRole('radio', { name: answer, exact: true }).check();
      await item.getByRole('button', { name: 'Write the answer' }).click();
      await item.waitFor({ state: 'detached' });
    }
    await observed.filter({ hasText: /class C, settled|interpretation-dependent/ }).waitFor();
    expect(await indexOf(page).textContent()).toContain('3.2150');
    await page.getByRole('button', { name: 'Take it back' }).click();
    const isPaired = async () =>
      (await server.ledger.head('tarn-5-open')).document.parts?.['rear-camera']?.remoteAuthorisation;
    await expect.poll(isPaired, { timeout: 90_000 }).toBeUndefined();
    await page.context().close();
  },
);

/** One screen in the suite; more of them, widths and sheets of it in the deep run. */
const LOOKS = (
  [
    ['/a/tarn-5/verdict', 390, 'dark'],
    ['/a/tarn-5/routes', 820, 'dark'],
    ['/a/gust-2/verdict', 820, 'light'],
    ['/a/tarn-5/verdict', 1440, 'light'],
    ['/a/tarn-5/routes', 390, 'light'],
  ] as const
).slice(0, share(1, 5));

test.each(LOOKS)(
  '%s at %i px, %s: no rule of WCAG 2.2 AA broken, nothing too small or too wide',
  async (path, width, colorScheme) => {
    const page = await openScreen(path, { viewport: { width, height: 900 }, colorScheme });
    expect(await brokenRules(page)).toEqual([]);
    const { small, over } = await tooSmallOrWide(page);
    expect([small.filter((element) => !element.startsWith('<input type="')), over]).toEqual([[], 0]);
    await page.context().close();
  },
);

// The last: its laboratory holds in every screen from then on.
test(
  'a reading is taken for the whole laboratory: it holds in another assessment too, which was open all along',
  PATIENT,
  async () => {
    const other = await openScreen('/a/beck-11/verdict');
    const page = await openScreen('/a/tarn-4/verdict');
    const question = page.getByRole('group', { name: /^Does unplugging a connector/ });
    const taken = question.getByRole('radio', { checked: false });
    const means = await taken.getAttribute('aria-describedby');
    await taken.check();
    const give = question.getByRole('button', { name: 'Read it so in the whole laboratory' });
    await give.waitFor();
    expect(await give.isDisabled()).toBe(true);
    await question.getByLabel('reason for this reading').fill('a plug is a thing of its own');
    await page.keyboard.press('Enter');
    await expect.poll(() => give.isEnabled(), { timeout: 90_000 }).toBe(true);
    await give.click();
    await question.getByText(/^As the laboratory reads it \(Quayside Bench, edition 1; /).waitFor();
    expect(await page.locator(`input[aria-describedby="${means}"]`).isChecked()).toBe(true);
    // The assessment itself chooses nothing any more: it follows the laboratory.
    const own = async () => (await server.ledger.head('tarn-4')).document.interpretations?.unplugging;
    await expect.poll(own, { timeout: 90_000 }).toBeUndefined();
    const [kept] = await server.ledger.laboratories();
    const { text } = await server.ledger.laboratory(kept?.id ?? '', 1);
    expect(text).toContain('a plug is a thing of its own');
    await page
      .getByText('Where this assessment chose no reading itself, those of the laboratory Quayside Bench hold')
      .waitFor();
    await page.context().close();
    const same = other.getByRole('group', { name: /^Does unplugging a connector/ });
    await same
      .getByText(/^As the laboratory reads it \(Quayside Bench, edition 1; .*: a plug is a thing of its own$/)
      .waitFor();
    const { document } = await server.ledger.head('beck-11');
    const { laboratory } = readLaboratory({ fileName: 'laboratory.yaml', bytes: new TextEncoder().encode(text) });
    const shown = computeVerdict(document as Assessment, { recordDigest: '', laboratory }).bases.at(-1);
    await expect
      .poll(() => indexOf(other).textContent(), { timeout: 90_000 })
      .toContain(`${shown?.low?.R} to ${shown?.high?.R}`);
    const edited = text.replace('edition: 1', 'edition: 2').replace('a plug is a thing of its own', 'as agreed since');
    const answer = await fetch(new URL('/api/laboratories', server.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ text: edited, author: 'M. R.', at: '2026-11-25T11:00:00+00:00' }),
    });
    expect(answer.status).toBe(201);
    await same.getByText(/^As the laboratory reads it \(Quayside Bench, edition 2; .*: as agreed since$/).waitFor();
    await other.context().close();
  },
);
