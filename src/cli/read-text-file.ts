import { readFileSync, statSync } from 'node:fs';
import { UnfastenError } from '#quantity/unfasten-error';

/** Largest file that a command reads unless it says otherwise [bytes]: 64 MiB. */
export const maxFileBytes = 64 * 1024 * 1024;

/**
 * What does a text file say? UTF-8, a byte order mark dropped. Throws an `UnfastenError` of kind `file` when it is larger
 * than `limitBytes`, which is checked before reading, or not UTF-8; a path that cannot be opened keeps Node's error.
 */
export function readTextFile(path: string, limitBytes = maxFileBytes): string {
  const { size } = statSync(path);
  if (size > limitBytes) {
    throw new UnfastenError('file', `The file is larger than the limit of ${limitBytes} bytes`, {
      where: path,
      value: `${size} bytes`,
      remedy: 'Split it or leave evidence out of it.',
    });
  }
  return decodeText(readFileSync(path), path);
}

/** Which text do these bytes spell? Throws an `UnfastenError` of kind `file` for anything but UTF-8; `where` names the file. */
export function decodeText(bytes: Uint8Array, where: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new UnfastenError('file', 'The file is not UTF-8 text', {
      where,
      value: encodingHint(bytes),
      remedy: 'Save it as UTF-8.',
    });
  }
}

function encodingHint(bytes: Uint8Array): string {
  const [first, second] = bytes;
  const isUtf16 = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  return isUtf16 ? 'UTF-16 byte order mark' : 'bytes that are no UTF-8';
}
