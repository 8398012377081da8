import { findBrowser, installedBrowser } from './find-browser.ts';

/**
 * Makes sure once per run, before the workers start, that there is a browser, so that two page tests never fetch one at
 * the same time. Where one is installed this costs nothing; a run named for other files only does not wait for one. A
 * machine that gets none is told in one line, and its page tests fail with the same line.
 */
export function setup(): void {
  const named = process.argv.slice(2).filter((argument) => /[/\\]|\.test/.test(argument) && !argument.startsWith('-'));
  const pagesRun = named.length === 0 || named.some((argument) => argument.includes('e2e'));
  if (!pagesRun || installedBrowser() !== undefined) return;
  process.stderr.write('No browser found for the page tests; fetching one, which may take minutes.\n');
  try {
    findBrowser();
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  }
}
