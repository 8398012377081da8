// Makes the pictures of the application's screens in docs/pictures/: npx tsx tools/app-pictures.ts [NAME …]. Every screen, both themes,
// 1440, 820 and 390 px, over a ledger of its own with the invented examples in it.
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { launchBrowser } from '../test/e2e/browser.ts';
import { servePage } from '../test/e2e/page-server.ts';

const pictures = join(fileURLToPath(new URL('..', import.meta.url)), 'docs', 'pictures');
mkdirSync(pictures, { recursive: true });

const beginSession = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: /^Begin; the clock starts/ }).click();
  await page.getByRole('timer').waitFor();
  for (const line of ['goal battery', 'heat 80c 3min rear']) {
    await page.keyboard.press('/');
    await page.keyboard.type(line);
    await page.keyboard.press('Enter');
  }
  for (const key of ['Space', 'Enter', 'Space', 'Enter', 'Space']) await page.keyboard.press(key);
  await page.getByText(/^All on disk/).waitFor();
};

/** The worker has answered. */
const figuresThere = async (page: Page): Promise<void> => {
  await page
    .getByText(/[Bb]eing (computed|worked out)/)
    .first()
    .waitFor({ state: 'detached', timeout: 120_000 });
};

/** The second swap campaign of the example in its middle: with all of it made, no run is left to suggest. */
const swapsBegun = (): Assessment => {
  const bytes = readFileSync(new URL('../examples/tarn-5/assessment.yaml', import.meta.url));
  const { assessment } = readAssessment({ fileName: 'assessment.yaml', bytes });
  if (!assessment) throw new Error('the example cannot be read');
  const made = Object.entries(assessment.swaps ?? {}).filter(([, { run = 0 }]) => run <= 21);
  return { ...assessment, swaps: Object.fromEntries(made) };
};

const showRunForm = async (page: Page): Promise<void> => {
  await figuresThere(page);
  await page.getByRole('button', { name: 'Make this run' }).click();
  await page.getByRole('radio', { name: /^E3/ }).first().check();
  await page.getByLabel('Its wording, word for word').first().fill('This battery is new to the phone.');
  await page
    .getByText('Functions gone through')
    .first()
    .evaluate((legend) => legend.scrollIntoView());
};

/** Each screen: its address, and what is done on it before the picture. */
const screens: readonly {
  readonly name: string;
  readonly path: string;
  readonly act?: (page: Page) => Promise<void>;
}[] = [
  { name: 'app-shelf', path: '/', act: figuresThere },
  { name: 'app-rubric', path: '/rubric', act: figuresThere },
  { name: 'app-new', path: '/new' },
  { name: 'app-record', path: '/a/tarn-5' },
  { name: 'app-structure', path: '/a/tarn-5/structure', act: figuresThere },
  { name: 'app-routes', path: '/a/tarn-5/routes', act: figuresThere },
  { name: 'app-verdict', path: '/a/tarn-5/verdict', act: figuresThere },
  { name: 'app-swaps-next', path: '/a/tarn-5-begun/swaps', act: figuresThere },
  { name: 'app-swaps-run', path: '/a/tarn-5-begun/swaps', act: showRunForm },
  { name: 'app-swaps-verdict', path: '/a/tarn-5/swaps/findings', act: figuresThere },
  { name: 'app-bench-begin', path: '/a/tarn-5/bench' },
  { name: 'app-bench', path: '/a/tarn-5/bench', act: beginSession },
];

const server = await servePage(['tarn-5', 'tarn-4', 'beck-11', 'gust-2', 'quick-log'], {
  documents: { 'tarn-5-begun': swapsBegun() },
});
const browser = await launchBrowser();
try {
  const asked = process.argv.slice(2);
  for (const { name, path, act } of screens.filter((screen) => asked.length === 0 || asked.includes(screen.name)))
    for (const width of [1440, 820, 390])
      for (const theme of ['light', 'dark'] as const) {
        const context = await browser.newContext({
          viewport: { width, height: width === 390 ? 844 : 900 },
          colorScheme: theme,
        });
        const page = await context.newPage();
        await page.addInitScript((chosen) => localStorage.setItem('unfasten.theme', chosen), theme);
        await page.goto(new URL(path, server.url).href);
        await page.locator('main h1, main h2').first().waitFor();
        await page.getByText('Reading …').waitFor({ state: 'detached' });
        if (act) await act(page);
        await page.screenshot({ path: join(pictures, `${name}-${width}-${theme}.png`) });
        await context.close();
      }
} finally {
  await browser.close();
  await server.stop();
}
