import { buildIfStale } from '../build-if-stale.ts';
import { findBrowser, installedBrowser } from './find-browser.ts';

/** Folders whose tests drive the built command line or page. */
const DRIVES_WHAT_IS_BUILT = /e2e|faults/;

/**
 * Makes sure once per run, before the workers start, that there is a browser and that what was built is up to date, so that
 * two tests never fetch or build at the same time. Where one is installed this costs nothing; a run named for other files only does not wait for one. A
 * machine that gets none is told in one line, and its page tests fail with the same line.
 */
export function setup(): void {
  const named = process.argv.slice(2).filter((argument) => /[/\\]|\.test/.test(argument) && !argument.startsWith('-'));
  const pagesRun = named.length === 0 || named.some((argument) => DRIVES_WHAT_IS_BUILT.test(argument));
  if (!pagesRun) return;
  buildIfStale();
  if (installedBrowser() !== undefined) return;
  process.stderr.write('No browser found for the page tests; fetching one, which may take minutes.\n');
  try {
    findBrowser();
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  }
}
