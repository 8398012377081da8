import { readFileSync, statSync } from 'node:fs';
import { UnfastenError } from '#quantity/unfasten-error';
import { limits } from '#record/limits';
import type { DocumentFile } from '#record/read/read-document';

/**
 * What is in a file that an option names? Throws an `UnfastenError` of kind `usage` for a folder or a device, and of kind `file` for
 * one above the limit fileBytes, which is checked before reading; a path that cannot be opened keeps Node's error.
 */
export const readGivenFile = (path: string, fileName: string = path): DocumentFile => {
  const stat = statSync(path);
  if (!stat.isFile())
    throw new UnfastenError('usage', stat.isDirectory() ? 'This is a folder, not a file' : 'This is no file', {
      where: fileName,
      value: fileName,
      remedy: 'Name the file itself.',
    });
  if (stat.size > limits.fileBytes)
    throw new UnfastenError('file', `The file is larger than the limit fileBytes of ${limits.fileBytes} bytes`, {
      where: fileName,
      value: `${stat.size} bytes`,
      remedy: 'Name another, or take out of it what does not belong there.',
    });
  return { fileName, bytes: readFileSync(path) };
};
