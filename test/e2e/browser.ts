import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { type Browser, type BrowserContext, chromium } from 'playwright-core';
import { findBrowser } from './find-browser.ts';

/** No sandbox, since tests often run as root in a container; no traffic of the browser's own. */
const launchFlags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** How long a page may take for one thing on a machine that does other work besides [ms]. */
const PATIENT_MILLISECONDS = 60_000;

/** Opens a headless browser, finding or fetching one first. Call it in `beforeAll`, close it in `afterAll`. */
export async function launchBrowser(): Promise<Browser> {
  const browser = await chromium.launch({ executablePath: findBrowser(), headless: true, args: launchFlags });
  const open = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await open(options);
    context.setDefaultTimeout(PATIENT_MILLISECONDS);
    return context;
  };
  return browser;
}

/** A browser in processes of its own, with a profile on the disk that outlives it. */
export interface KillableBrowser {
  readonly context: BrowserContext;
  /** SIGKILL to all its processes at once, as when the machine's power fails for it alone. */
  kill(): Promise<void>;
}

/** Opens a headless browser on a profile folder, new or left by another that was killed. */
export async function launchKillable(profile: string): Promise<KillableBrowser> {
  const flags = ['--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`, ...launchFlags];
  const child = spawn(findBrowser(), [...flags, 'about:blank'], {
    detached: true,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  const closed = once(child, 'close');
  const kill = async () => {
    // The whole group: its own processes would otherwise finish what they were writing.
    if (child.exitCode === null && child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
    await closed;
  };
  for await (const line of createInterface({ input: child.stderr })) {
    const [, address] = /^DevTools listening on (ws:\S+)/.exec(line) ?? [];
    if (address === undefined) continue;
    child.stderr.resume();
    const browser = await chromium.connectOverCDP(address);
    const [context] = browser.contexts();
    if (context) return { context, kill };
  }
  await kill();
  throw new Error('the browser ended before it could be driven');
}
