import { execFileSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, dirname, join } from 'node:path';
import { chromium } from 'playwright-core';

const namesOnPath = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const wellKnownPlaces = [
  '/usr/bin/chromium',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];
const fetchMilliseconds = 600_000;

const browserRemedy =
  'No browser for the page tests: install chromium (Debian: apt-get install chromium) or set UNFASTEN_BROWSER to one.';

/**
 * Which browser do the page tests drive? In this order: UNFASTEN_BROWSER, a Chromium or Chrome already installed, the
 * one in the driver's own cache, one fetched by the driver's own tool, Debian's package where the tests run as root. Throws
 * with one line that says what to install. Fetching may take minutes, once.
 */
export function findBrowser(): string {
  const found = installedBrowser() ?? fetchedBrowser() ?? debianBrowser();
  if (found === undefined) throw new Error(browserRemedy);
  return found;
}

/** Which browser is there already? Nothing is fetched. Throws if UNFASTEN_BROWSER names no executable. */
export function installedBrowser(): string | undefined {
  const named = process.env.UNFASTEN_BROWSER;
  if (named !== undefined && named !== '') {
    if (isExecutable(named)) return named;
    throw new Error(`UNFASTEN_BROWSER names ${named}, which is no executable.`);
  }
  const folders = (process.env.PATH ?? '').split(delimiter);
  const onPath = namesOnPath.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...onPath, ...wellKnownPlaces, chromium.executablePath()].find(isExecutable);
}

function isExecutable(path: string): boolean {
  if (path === '' || !existsSync(path)) return false;
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function fetchedBrowser(): string | undefined {
  const driver = dirname(createRequire(import.meta.url).resolve('playwright-core/package.json'));
  const fetched = succeeds(process.execPath, [join(driver, 'cli.js'), 'install', 'chromium']);
  const path = chromium.executablePath();
  return fetched && isExecutable(path) ? path : undefined;
}

function debianBrowser(): string | undefined {
  if (process.getuid?.() !== 0 || !existsSync('/etc/debian_version')) return undefined;
  const installed =
    succeeds('apt-get', ['update', '-q']) &&
    succeeds('apt-get', ['install', '-y', '-q', '--no-install-recommends', 'chromium']);
  return installed ? installedBrowser() : undefined;
}

function succeeds(command: string, argv: readonly string[]): boolean {
  try {
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    execFileSync(command, argv, { stdio: 'pipe', timeout: fetchMilliseconds, env });
    return true;
  } catch {
    return false;
  }
}
