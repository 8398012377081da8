/** Which key does a new change go under? A version 4 UUID (RFC 9562, section 5.4), also where the page is not from a secure address. */
export const newChangeKey = (): string => {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
};

/** What time is it on the wall? RFC 3339 with this machine's offset. */
export const wallTime = (now: Date = new Date()): string => {
  const offset = -now.getTimezoneOffset();
  const two = (value: number) => String(Math.floor(value)).padStart(2, '0');
  const local = new Date(now.getTime() + offset * 60_000).toISOString().slice(0, 23);
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.abs(offset) / 60)}:${two(Math.abs(offset) % 60)}`;
};
