import { type Browser, chromium } from 'playwright-core';
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

/** Opens a headless browser, finding or fetching one first. Call it in `beforeAll`, close it in `afterAll`. */
export async function launchBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: findBrowser(), headless: true, args: launchFlags });
}
