import { dump } from 'js-yaml';
import { seedRecord } from './seed-record.ts';
import { SeededRandom } from './seeded-random.ts';

/** One spoilt record: how it was spoilt, and the file that came of it. */
export interface MutatedFile {
  readonly how: 'bytes' | 'tokens' | 'structure';
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

const TOKENS = [
  '{',
  '}',
  '[',
  ']',
  ':',
  ',',
  '"',
  "'",
  '-',
  '- ',
  '? ',
  '|',
  '>',
  '&a ',
  '*a',
  '!!str ',
  '<<: *a',
  '---\n',
  '...\n',
  '#',
  '%YAML 1.2\n',
  'null',
  '~',
  'true',
  '.nan',
  '-.inf',
  'NaN',
  'Infinity',
  '1e999',
  '0x1F',
  '0o17',
  '1_000',
  '-0',
  '""',
  '{}',
  '[]',
  '\t',
  '\n',
  '\r\n',
  '\\u0000',
  '\\ud800',
  '__proto__',
  'constructor',
  'toString',
  '\u0000',
  '\ufeff',
  '\u2028',
  '𝄞',
  '@',
  '`',
  '//',
  '/*',
  '0.1.2',
  '2026-02-30',
  '3 furlong',
];

const VALUES: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1.5,
  1e300,
  '',
  'x',
  'nowhere',
  '8 min',
  '3 g',
  '649 EUR',
  [],
  {},
  [[]],
  ['nowhere'],
  { a: 1 },
  'x'.repeat(200),
  'cover',
  'battery',
  '__proto__',
  'toString',
  '2026-13-40',
  ['a', 'a'],
  { leftBy: 'x2' },
  [null],
  { off: 1 },
  '\u202e',
  Number.MAX_SAFE_INTEGER,
];

/** The spoilt record of this number: the same file for the same number, for ever. */
export const mutatedFile = (number: number): MutatedFile => {
  const random = new SeededRandom(number);
  const how = random.pick(['bytes', 'tokens', 'structure'] as const);
  const json = random.below(2) === 0;
  const record = seedRecord();
  if (how === 'structure') for (let count = random.below(4) + 1; count > 0; count -= 1) spoilStructure(record, random);
  let text = json
    ? JSON.stringify(record, undefined, random.below(3))
    : dump(record, { lineWidth: random.pick([40, 120, -1]), flowLevel: random.pick([-1, 3, 4]) });
  if (how === 'tokens') for (let count = random.below(4) + 1; count > 0; count -= 1) text = spoilTokens(text, random);
  let bytes = new TextEncoder().encode(text);
  if (how === 'bytes') for (let count = random.below(6) + 1; count > 0; count -= 1) bytes = spoilBytes(bytes, random);
  return { how, fileName: json ? 'assessment.json' : 'assessment.yaml', bytes };
};

const spoilBytes = (bytes: Uint8Array, random: SeededRandom): Uint8Array<ArrayBuffer> => {
  const at = random.below(bytes.length + 1);
  const span = random.below(30);
  const before = bytes.subarray(0, at);
  const after = bytes.subarray(at);
  const made = (...pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> =>
    Uint8Array.from(pieces.flatMap((piece) => [...piece]));
  switch (random.below(5)) {
    case 0:
      return made(before, Uint8Array.of(random.below(256)), after.subarray(1));
    case 1:
      return made(before, after.subarray(span));
    case 2:
      return made(
        before,
        Uint8Array.from({ length: span }, () => random.below(256)),
        after,
      );
    case 3:
      return made(before, after.subarray(0, span), after);
    default:
      return random.below(10) === 0 ? made(before) : made(before, Uint8Array.of(32 + random.below(95)), after);
  }
};

const spoilTokens = (text: string, random: SeededRandom): string => {
  const lines = text.split('\n');
  const line = random.below(lines.length);
  const current = lines[line] ?? '';
  switch (random.below(6)) {
    case 0:
      lines.splice(line, 1);
      return lines.join('\n');
    case 1:
      lines.splice(line, 0, random.pick(lines));
      return lines.join('\n');
    case 2:
      lines[line] = random.below(2) === 0 ? `  ${current}` : current.slice(2);
      return lines.join('\n');
    default: {
      const at = random.below(text.length + 1);
      return text.slice(0, at) + random.pick(TOKENS) + text.slice(at + random.below(4));
    }
  }
};

type Container = Record<string, unknown> | unknown[];

const isContainer = (value: unknown): value is Container => typeof value === 'object' && value !== null;

const spoilStructure = (record: Record<string, unknown>, random: SeededRandom): void => {
  let place: Container = record;
  let key = random.pick(Object.keys(place));
  for (let depth = random.below(8); depth > 0; depth -= 1) {
    const below: unknown = Reflect.get(place, key);
    if (!isContainer(below) || Object.keys(below).length === 0) break;
    place = below;
    key = random.pick(Object.keys(place));
  }
  switch (random.below(5)) {
    case 0:
      if (Array.isArray(place)) place.splice(Number(key), 1);
      else delete place[key];
      return;
    case 1:
      if (!Array.isArray(place))
        place[random.pick([`${key}x`, 'nowhere', 'e1', 'toString', 'ünlaut', key.slice(1), 'chassis'])] = Reflect.get(
          place,
          key,
        );
      return;
    default:
      Reflect.set(place, key, structuredClone(random.pick(VALUES)));
  }
};
