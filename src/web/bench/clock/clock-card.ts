/** What the clock card tells a camera: which session, which of its moments, which picture in the row. */
export interface ClockCard {
  readonly session: string;
  /** Session time [ms]. */
  readonly milliseconds: number;
  /** Wall time, RFC 3339. */
  readonly wall: string;
  readonly sequence: number;
}

/** Between two pictures of the card [ms]: ten a second. */
export const CARD_PERIOD = 100;

const HEAD = 'UNFASTEN1';

/** What stands in the code on the card? Its fields between bars, closed by their CRC-32. */
export const cardText = ({ session, milliseconds, wall, sequence }: ClockCard): string => {
  const text = [HEAD, session, milliseconds, wall, sequence].join('|');
  return `${text}|${crc32(text)}`;
};

/** What does a read code say? Undefined for a code of something else, and for one that was misread. */
export const readCard = (text: string): ClockCard | undefined => {
  const [head, session, milliseconds, wall, sequence, sum, ...rest] = text.split('|');
  const isWhole = head === HEAD && rest.length === 0 && sum === crc32(text.slice(0, text.lastIndexOf('|')));
  if (!isWhole || session === undefined || wall === undefined) return undefined;
  return { session, milliseconds: Number(milliseconds), wall, sequence: Number(sequence) };
};

/** CRC-32 as in IEEE 802.3 (reflected, polynomial 0xEDB88320), 8 hex digits; the check value of "123456789" is cbf43926. */
export const crc32 = (text: string): string => {
  let sum = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = (sum >>> 1) ^ (sum & 1 ? 0xedb88320 : 0);
  }
  return ((sum ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
};
