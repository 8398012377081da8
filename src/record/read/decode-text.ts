import { limitWords } from '../limit-words.ts';
import { limits } from '../limits.ts';
import type { SourceProblem } from './source-problem.ts';

/** What do the bytes of a file say as text? The text without a byte order mark, or the one problem that stops reading. */
export type DecodedText = { readonly text: string } | { readonly text?: undefined; readonly problem: SourceProblem };

const wrongEncoding = (offset: number, message: string, value?: string): DecodedText => ({
  problem: {
    offset,
    path: [],
    value,
    message,
    remedy: 'Save the file as UTF-8.',
    kind: 'encoding',
  },
});

/**
 * Reads bytes as UTF-8. UTF-16 and UTF-32 (by mark or by their zero bytes), Latin-1 and other invalid sequences, and
 * control characters no text file holds are refused with the place of the first.
 */
export const decodeText = (bytes: Uint8Array): DecodedText => {
  if (bytes.length > limits.fileBytes)
    return { problem: { offset: 0, path: [], ...limitWords('fileBytes', bytes.length) } };
  const wide = wideEncoding(bytes);
  if (wide) return wrongEncoding(0, `the file is encoded as ${wide}, not as UTF-8`);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return invalidSequence(bytes);
  }
  const control = text.search(CONTROL);
  if (control < 0) return { text };
  const code = text.charCodeAt(control).toString(16).toUpperCase().padStart(4, '0');
  return wrongEncoding(control, `the file holds the control character U+${code}`, `U+${code}`);
};

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that are refused
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/;

const wideEncoding = (bytes: Uint8Array): string | undefined => {
  const [a, b, c, d] = bytes;
  if (a === 0xff && b === 0xfe) return c === 0 && d === 0 ? 'UTF-32' : 'UTF-16';
  if (a === 0xfe && b === 0xff) return 'UTF-16';
  if (a === 0 && b === 0 && c === 0xfe && d === 0xff) return 'UTF-32';
  if (bytes.length >= 4 && (a === 0) !== (b === 0) && (a === 0) === (c === 0) && (b === 0) === (d === 0))
    return 'UTF-16';
  return undefined;
};

/** Where is the first byte sequence that is no UTF-8? The text before it is well formed, so its length is the offset. */
const invalidSequence = (bytes: Uint8Array): DecodedText => {
  const at = firstInvalidByte(bytes);
  const before = new TextDecoder('utf-8').decode(bytes.subarray(0, at));
  const byte = (bytes[at] ?? 0).toString(16).toUpperCase().padStart(2, '0');
  return wrongEncoding(before.length, `the byte 0x${byte} is no UTF-8 here; the file may be Latin-1`, `0x${byte}`);
};

const firstInvalidByte = (bytes: Uint8Array): number => {
  let at = 0;
  while (at < bytes.length) {
    const length = sequenceLength(bytes, at);
    if (length === 0) return at;
    at += length;
  }
  return at;
};

/** Length of the well-formed sequence at a place, 0 when there is none (Unicode standard, table 3-7). */
const sequenceLength = (bytes: Uint8Array, at: number): number => {
  const lead = bytes[at] ?? 0;
  if (lead < 0x80) return 1;
  if (lead < 0xc2 || lead > 0xf4) return 0;
  const length = lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;
  const lowest = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
  const highest = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
  for (let index = 1; index < length; index += 1) {
    const byte = bytes[at + index] ?? 0;
    if (byte < (index === 1 ? lowest : 0x80) || byte > (index === 1 ? highest : 0xbf)) return 0;
  }
  return length;
};
