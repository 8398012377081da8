// Makes the pictures of docs/pictures/ from the demo's report: npx tsx tools/pictures.ts (after `npm run build`).
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { launchBrowser } from '../test/e2e/browser.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const pictures = join(root, 'docs', 'pictures');
const folder = mkdtempSync(join(tmpdir(), 'unfasten-pictures-'));

/** One picture: the report from one heading to the next thing below it, at one width and in one theme. */
const views = [
  { name: 'depth-section', heading: 'depth', width: 1440, height: 940, theme: 'light' },
  { name: 'verdict-ruler-dark', heading: 'verdict', width: 820, height: 760, theme: 'dark' },
  { name: 'battery-phone', heading: 'part-battery', width: 390, height: 1300, theme: 'light' },
] as const;

const browser = await launchBrowser();
try {
  const made = spawnSync(
    process.execPath,
    [join(root, 'bin', 'unfasten.mjs'), 'report', join(root, 'examples', 'tarn-5'), '--out', folder],
    { stdio: ['ignore', 'ignore', 'inherit'] },
  );
  if (made.status !== 0)
    throw new Error('the report of the demo could not be made; run `unfasten report examples/tarn-5`');
  mkdirSync(pictures, { recursive: true });
  for (const { name, heading, width, height, theme } of views) {
    const page = await browser.newPage({ viewport: { width, height: 1000 }, colorScheme: theme });
    await page.goto(pathToFileURL(join(folder, 'report.html')).href);
    const top = await page.locator(`#${heading}`).evaluate((element) => element.getBoundingClientRect().top + scrollY);
    await page.screenshot({
      path: join(pictures, `${name}.png`),
      fullPage: true,
      clip: { x: 0, y: Math.max(0, top - 16), width, height },
    });
    await page.close();
  }
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
