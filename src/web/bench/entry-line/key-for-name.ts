import { RESERVED_WORDS } from '#record/schema/basics';
import { crc32 } from '../clock/clock-card.ts';

/** Longest key made of a name [characters]; the record takes 80. */
const LONGEST = 60;

/**
 * Under which key does something new go that was called so? Its letters without accents; where letters are lost, or the key is
 * taken or means something to every object, a checksum of the name tells it apart. The same name always gives the same key.
 */
export const keyForName = (name: string, isTaken: (key: string) => boolean): string => {
  const plain = name.normalize('NFKD').replaceAll(/\p{M}/gu, '');
  const key = plain
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '')
    .slice(0, LONGEST)
    .replace(/-$/, '');
  const isWhole = !/[^\x20-\x7e]/.test(plain);
  if (key !== '' && isWhole && !isTaken(key) && !RESERVED_WORDS.includes(key)) return key;
  return `${key === '' ? 'thing' : key}-${crc32(name)}`;
};
