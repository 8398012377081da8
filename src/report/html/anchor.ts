/**
 * Which fragment does a thing of the report have? The kind and its address, letters, digits and hyphens kept, everything
 * else as `_` and the code point in base 36, so that different addresses stay different.
 */
export function anchorOf(kind: string, address: string): string {
  const safe = address.replace(/[^A-Za-z0-9-]/gu, (character) =>
    character === '/' || character === '.' ? '.' : `_${(character.codePointAt(0) ?? 0).toString(36)}_`,
  );
  return `${kind}-${safe}`;
}
