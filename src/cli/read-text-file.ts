import { readFileSync, statSync } from 'node:fs';
import { UnfastenError } from '#quantity/unfasten-error';
import { limits } from '#record/limits';
import { decodeText } from '#record/read/decode-text';

/**
 * What does a text file say? UTF-8, a byte order mark dropped. Throws an `UnfastenError` of kind `file` when it is larger
 * than `limitBytes`, which is checked before reading, or not UTF-8; a path that cannot be opened keeps Node's error.
 */
export function readTextFile(path: string, limitBytes: number = limits.fileBytes): string {
  const { size } = statSync(path);
  if (size > limitBytes) {
    const what = `The file is larger than the limit fileBytes of ${limitBytes} bytes`;
    throw new UnfastenError('file', what, { where: path, value: `${size} bytes`, remedy: 'Split it.' });
  }
  const decoded = decodeText(readFileSync(path));
  if (decoded.text !== undefined) return decoded.text;
  const { message, value, remedy } = decoded.problem;
  throw new UnfastenError('file', message, { where: path, value, remedy });
}
