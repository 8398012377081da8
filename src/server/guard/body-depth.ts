/** Bytes of JSON that open and close, and that begin, end and escape a text. */
const [OPENS, CLOSES] = [new Set([0x5b, 0x7b]), new Set([0x5d, 0x7d])];
const [QUOTE, BACKSLASH] = [0x22, 0x5c];

/**
 * Do maps and lists of a JSON text lie deeper inside each other than so many levels? Looked at before parsing, since everything after
 * it goes down level by level. What is no JSON is left to the parser. Cost: linear, one pass over the bytes.
 */
export const isDeeperThan = (bytes: Uint8Array, most: number): boolean => {
  let depth = 0;
  let isText = false;
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at] ?? 0;
    if (isText) {
      if (byte === BACKSLASH) at += 1;
      else isText = byte !== QUOTE;
    } else if (byte === QUOTE) isText = true;
    else if (OPENS.has(byte)) depth += 1;
    else if (CLOSES.has(byte)) depth -= 1;
    if (depth > most) return true;
  }
  return false;
};
