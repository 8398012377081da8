// How fast is the page in a real browser: from a key at the bench to the painted frame, with 150 fasteners and 1,000 entries;
// to the first screen; to a second screen; and over HTTP to the disk against one bare flush in the same run?
// Usage: npm run bench -- page
import { randomUUID } from 'node:crypto';
import { closeSync, fdatasyncSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { launchBrowser } from '../../test/e2e/browser.ts';
import { noted, notePaints, notePresses, quantile } from '../../test/e2e/note-times.ts';
import { type PageServer, servePage } from '../../test/e2e/page-server.ts';
import { benchFixture } from '../bench-session/make-fixture.ts';

const SEED = 20_261_125;
const WARM_UP = 20;
const MARKS = 100;
const FOLLOWED = 100;
const OPENINGS = 5;
const CHANGES = 300;
/** Bytes a commit of one entry puts into the log: two pages and their heads. */
const FLUSHED = Buffer.alloc(2 * (4096 + 24));

const rows: string[] = [];
const row = (what: string, values: readonly number[], target: string): void => {
  const figures = [0.5, 0.95, 1].map((share) => quantile(values, share).toFixed(1));
  rows.push(`| ${[what, values.length, ...figures, target].join(' | ')} |`);
};

const openBench = async (browser: Browser, server: PageServer, assessment: string): Promise<Page> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await page.goto(new URL(`/a/${assessment}/bench`, server.url).href);
  await page.getByRole('heading', { name: 'Begin a session' }).waitFor();
  return page;
};

const goOn = async (page: Page): Promise<void> => {
  await page.getByRole('list').getByRole('button').first().click();
  await page.getByRole('timer').waitFor();
  await page.getByText(/^All on disk/).waitFor();
};

/** Presses the key, each time when the frame of the one before is painted at `seen`; gives the time from key to frame [ms]. */
const press = async (page: Page, seen: Page, count: number): Promise<readonly number[]> => {
  await Promise.all([notePresses(page), notePaints(seen)]);
  for (let pressed = 1; pressed <= count; pressed += 1) {
    await page.keyboard.press('Space');
    await seen.waitForFunction((most) => ((window as { painted?: number[] }).painted?.length ?? 0) >= most, pressed);
  }
  const [pressed, painted] = [await noted(page, 'pressed'), await noted(seen, 'painted')];
  return painted.map((at, index) => at - (pressed[index] ?? Number.NaN)).slice(WARM_UP);
};

/** Processor time of the page's main thread so far [ms]. */
const mainThread = async (page: Page): Promise<() => Promise<number>> => {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  return async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN) * 1000;
  };
};

const measureRepaint = async (browser: Browser, server: PageServer, entries: number): Promise<void> => {
  const page = await openBench(browser, server, `long-${entries}`);
  await goOn(page);
  const spent = await mainThread(page);
  const before = await spent();
  const times = await press(page, page, WARM_UP + MARKS);
  const each = ((await spent()) - before) / (WARM_UP + MARKS);
  row(`key to painted log and readout, ${entries} entries`, times, '50');
  rows.push(`| of it processor, main thread, ${entries} entries | mean | ${each.toFixed(1)} | - | - | - |`);
  await page.context().close();
};

/** What a key costs that adds a line to an empty page: the browser's share on this machine, to compare with. */
const measureBarePage = async (browser: Browser): Promise<void> => {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.setContent('<ol aria-label="Log of this session"></ol>');
  await page.evaluate(() =>
    window.addEventListener('keydown', () => document.querySelector('ol')?.append(document.createElement('li'))),
  );
  const spent = await mainThread(page);
  const before = await spent();
  row('the same key on an empty page', await press(page, page, WARM_UP + MARKS), '-');
  const each = ((await spent()) - before) / (WARM_UP + MARKS);
  rows.push(`| of it processor, main thread, the measuring itself | mean | ${each.toFixed(1)} | - | - | - |`);
  await page.context().close();
};

const measureFollowing = async (browser: Browser, server: PageServer): Promise<void> => {
  const first = await openBench(browser, server, 'quick-log');
  await goOn(first);
  const second = await openBench(browser, server, 'quick-log');
  await goOn(second);
  row('key to painted log on a second screen', await press(first, second, WARM_UP + FOLLOWED), '300');
  await Promise.all([first.context().close(), second.context().close()]);
};

/** Notes when a heading stands and is painted: a task asked for in a frame comes after its paint. */
const NOTE_READY = (text: string): void => {
  setInterval(() => {
    const isNoted = (window as { ready?: number }).ready !== undefined;
    if (isNoted || ![...document.querySelectorAll('h1, h2')].some(({ textContent }) => textContent === text)) return;
    requestAnimationFrame(() => setTimeout(() => Object.assign(window, { ready: performance.now() })));
  }, 4);
};

/** When a heading stands and is painted, since the navigation began [ms]. */
const readyTime = async (browser: Browser, url: string, heading: string): Promise<number> => {
  const page = await (await browser.newContext()).newPage();
  await page.addInitScript(NOTE_READY, heading);
  await page.goto(url);
  const ready = await page.waitForFunction(() => (window as { ready?: number }).ready);
  const time = await ready.jsonValue();
  await page.context().close();
  return time ?? Number.NaN;
};

const measureReady = async (browser: Browser, server: PageServer): Promise<void> => {
  for (const [what, path, heading] of [
    ['first screen', '/', 'Shelf'],
    ['bench opened by its address', '/a/quick-log/bench', 'Begin a session'],
  ] as const) {
    const times: number[] = [];
    for (let opening = 0; opening < OPENINGS; opening += 1)
      times.push(await readyTime(browser, new URL(path, server.url).href, heading));
    row(`${what} ready, nothing cached`, times, '1500');
  }
};

const timed = async (work: () => unknown): Promise<number> => {
  const begun = performance.now();
  await work();
  return performance.now() - begun;
};

/** Client and server share one thread here, so that the difference is more than the server's own. */
const measureAcknowledgement = async (server: PageServer): Promise<number> => {
  const url = new URL('/api/assessments/long-700/changes', server.url);
  const plain = openSync(join(server.folder, 'plain'), 'w');
  let { revision: base } = await server.ledger.head('long-700');
  const [answers, flushes]: [number[], number[]] = [[], []];
  for (let count = 0; count < WARM_UP + CHANGES; count += 1) {
    const patch = [{ op: 'add', path: `/sessions/s/entries/n${count}`, value: { at: 2e6 + count, do: 'pry' } }];
    const body = JSON.stringify({ change: randomUUID(), base, patch, author: 'K.', at: '2026-03-02T09:00:00Z' });
    const answer = await timed(async () => {
      const response = await fetch(url, { method: 'POST', headers: { 'content-type': 'application/json' }, body });
      base = ((await response.json()) as { revision: number }).revision;
    });
    const flush = await timed(() => {
      writeSync(plain, FLUSHED);
      fdatasyncSync(plain);
    });
    if (count < WARM_UP) continue;
    answers.push(answer);
    flushes.push(flush);
  }
  closeSync(plain);
  row('change acknowledged over HTTP', answers, 'one flush + 3');
  row('one bare flush', flushes, '-');
  return quantile(answers, 0.95) - quantile(flushes, 0.95);
};

const documents = Object.fromEntries([700, 1000].map((entries) => [`long-${entries}`, benchFixture(SEED, entries)]));
const server = await servePage(['quick-log'], { documents });
const browser = await launchBrowser();
try {
  await measureBarePage(browser);
  for (const entries of [700, 1000]) await measureRepaint(browser, server, entries);
  await measureFollowing(browser, server);
  await measureReady(browser, server);
  const over = await measureAcknowledgement(server);
  console.log(`150 fasteners, seed ${SEED}, 1440 by 900 px, headless [ms].\n`);
  console.log('| what | times | p50 | p95 | most | target p95 |\n| --- | --- | --- | --- | --- | --- |');
  console.log(rows.join('\n'));
  console.log(`\nAt p95 an acknowledgement over HTTP costs one bare flush and ${over.toFixed(1)} ms.`);
} finally {
  await browser.close();
  await server.stop();
}
