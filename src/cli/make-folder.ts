import { mkdirSync, type Stats, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { UnfastenError } from '#quantity/unfasten-error';

/**
 * Makes a folder and those above it that are missing. Throws an `UnfastenError` of kind `usage` where a file stands in the way; where
 * none can be made, Node's error. One level at a time: Node's own way through all levels never returns where a file system takes no
 * new folders and says that the path is missing, as `/proc` does.
 */
export const makeFolder = (path: string): void => {
  const missing: string[] = [];
  let folder = resolve(path);
  let found = statusOf(folder);
  while (!found) {
    missing.push(folder);
    folder = dirname(folder);
    found = statusOf(folder);
  }
  if (!found.isDirectory())
    throw new UnfastenError('usage', 'A file stands where a folder is to be', {
      where: path,
      value: folder,
      remedy: 'Name another folder, or move the file away.',
    });
  for (const level of missing.reverse()) makeLevel(level);
};

/** Another process may have made it in the meantime. */
const makeLevel = (folder: string): void => {
  try {
    mkdirSync(folder);
  } catch (error) {
    if (!statusOf(folder)?.isDirectory()) throw error;
  }
};

/** What stands at a path? Nothing below a file, either. */
const statusOf = (path: string): Stats | undefined => {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOTDIR') return undefined;
    throw error;
  }
};
