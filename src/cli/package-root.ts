import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { UnfastenError } from '#quantity/unfasten-error';

/** Where does this package lie? The nearest folder above with the program's executable; the same from sources and bundled. */
export const packageRoot = (): string => {
  const start = dirname(fileURLToPath(import.meta.url));
  for (let folder = start; ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'bin', 'unfasten.mjs'))) return folder;
    if (folder === dirname(folder)) break;
  }
  throw new UnfastenError('bug', 'The package does not lie around its own program', {
    where: start,
    value: undefined,
    remedy: 'Install it anew.',
  });
};
