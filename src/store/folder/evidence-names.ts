import { readdir } from 'node:fs/promises';
import { join } from 'node:path';

/** Longest name of a file in an exported folder [characters]. */
export const MAX_NAME = 200;

/** May this name stand in `evidence/` of a folder? No way up, out, or into what the system reads in its own way. */
export const isPlainFileName = (name: string): boolean =>
  name.length <= MAX_NAME &&
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that are refused
  !/[\\:*?"<>|\u0000-\u001f\u007f]/.test(name) &&
  name.split('/').every((segment) => segment !== '' && !/^\.+$/.test(segment) && segment === segment.trim());

/** Which regular files lie in a folder, also in folders below? Names with `/`, in order; links are not followed. */
export const filesBelow = async (folder: string, prefix = ''): Promise<readonly string[]> => {
  const entries = await readdir(join(folder, prefix), { withFileTypes: true }).catch(missingIsNone);
  const names: string[] = [];
  for (const entry of entries) {
    const name = prefix === '' ? entry.name : `${prefix}/${entry.name}`;
    if (entry.isDirectory()) names.push(...(await filesBelow(folder, name)));
    else if (entry.isFile()) names.push(name);
  }
  return names.sort();
};

const missingIsNone = (error: unknown): [] => {
  if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return [];
  throw error;
};
