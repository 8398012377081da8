import { spawn } from 'node:child_process';

const OPENERS: Partial<Readonly<Record<NodeJS.Platform, readonly string[]>>> = {
  darwin: ['open'],
  win32: ['cmd', '/c', 'start', ''],
};

/** Shows an address in the person's own browser, where there is one; where there is none nothing happens, the address having been printed. */
export const openBrowser = (url: string): void => {
  const [program = 'xdg-open', ...rest] = OPENERS[process.platform] ?? [];
  const opener = spawn(program, [...rest, url], { stdio: 'ignore', detached: true });
  opener.on('error', () => opener.unref());
  opener.unref();
};
