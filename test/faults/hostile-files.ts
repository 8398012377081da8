/** A file made to break a reader, and the kind of problem it is to be refused with. */
export interface HostileFile {
  readonly name: string;
  readonly fileName: string;
  readonly kind: string;
  /** Another of its list breaks the same thing: left to the deep run. */
  readonly alike?: true;
  bytes(): Uint8Array;
}

const START_YAML = 'format: unfasten/assessment\nversion: 1\nproduct: { name: x }\n';
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const utf16 = (text: string): Uint8Array =>
  Uint8Array.from([...text].flatMap((c) => [c.charCodeAt(0) & 255, c.charCodeAt(0) >> 8]));
const yaml = (name: string, kind: string, text: () => string): HostileFile => ({
  name,
  fileName: 'assessment.yaml',
  kind,
  bytes: () => utf8(text()),
});
const json = (name: string, kind: string, text: () => string): HostileFile => ({
  name,
  fileName: 'assessment.json',
  kind,
  bytes: () => utf8(text()),
});
const record = (fields: string): string =>
  `{"format":"unfasten/assessment","version":1,"product":{"name":"x"},${fields}}`;

/** Nine levels of nine aliases each: 387 million values once written out. */
const aliasBomb = (): string => {
  const levels = ['a: &a [x, x, x, x, x, x, x, x, x]'];
  for (const [below, name] of [...'abcdefgh'].map((letter, index) => [letter, 'bcdefghi'[index]] as const))
    levels.push(`${name}: &${name} [${Array(9).fill(`*${below}`).join(', ')}]`);
  return START_YAML + levels.join('\n');
};

const MEGABYTE = 1024 * 1024;

/** Files that break readers. Those of the second list are large: they are read by a process of their own. */
export const smallHostileFiles: readonly HostileFile[] = [
  yaml('alias bomb', 'limit', aliasBomb),
  yaml('alias inside itself', 'cycle', () => `${START_YAML}parts: &p { a: { note: x, evidence: *p } }`),
  yaml('alias without anchor', 'unknown-reference', () => `${START_YAML}title: *nowhere`),
  yaml(
    'two thousand aliases',
    'limit',
    () =>
      `${START_YAML}title: &t x\nnotes:\n${Array.from({ length: 2000 }, (_, n) => `  n${n}: { text: *t }\n`).join('')}`,
  ),
  yaml('tag of a language', 'syntax', () => `${START_YAML}title: !!js/function "function () { throw 1 }"`),
  yaml('merge key', 'syntax', () => `${START_YAML}parts:\n  a: &a { name: A }\n  b: { <<: *a }`),
  yaml('two documents', 'syntax', () => `${START_YAML}---\n${START_YAML}`),
  yaml('key that is a list', 'syntax', () => `${START_YAML}? [a, b]\n: c`),
  yaml('deep flow nesting', 'limit', () => `${START_YAML}title: ${'['.repeat(5000)}`),
  yaml(
    'deep block nesting',
    'limit',
    () => START_YAML + Array.from({ length: 200 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n'),
  ),
  yaml('prototype key', 'reserved-key', () => `${START_YAML}parts: { __proto__: { name: x } }`),
  yaml('constructor key', 'reserved-key', () => `${START_YAML}constructor: { prototype: { x: 1 } }`),
  yaml('not a number', 'value', () => `${START_YAML}tools: { t: { name: x, pickup: .nan } }`),
  yaml('infinite', 'value', () => `${START_YAML}tools: { t: { name: x, pickup: .inf } }`),
  yaml('overlong text', 'value', () => `${START_YAML}title: ${'x'.repeat(20_000)}`),
  yaml('overlong id', 'value', () => `${START_YAML}parts: { ${'x'.repeat(200)}: { name: x } }`),
  yaml('duplicate key', 'duplicate-key', () => `${START_YAML}version: 1`),
  yaml('tab indentation', 'syntax', () => `${START_YAML}parts:\n\ta: { name: x }`),
  yaml('unclosed quote', 'syntax', () => `${START_YAML}title: "x`),
  yaml('empty file', 'syntax', () => ''),
  yaml('only a comment', 'syntax', () => '# nothing'),
  yaml('a lone word', 'type', () => 'x'),
  json('empty JSON', 'syntax', () => ''),
  json('a line end and nothing else', 'syntax', () => '\r\n'),
  json('duplicate key in JSON', 'duplicate-key', () => record('"version":1')),
  json('prototype key in JSON', 'reserved-key', () => record('"parts":{"__proto__":{"name":"x"}}')),
  json('escaped prototype key', 'reserved-key', () => record('"parts":{"\\u005f_proto__":{"name":"x"}}')),
  json('key that every object has', 'reserved-key', () => record('"parts":{"toString":{"name":"x"}}')),
  json('NaN in JSON', 'value', () => record('"tools":{"t":{"name":"x","pickup":NaN}}')),
  json('-Infinity in JSON', 'value', () => record('"tools":{"t":{"name":"x","pickup":-Infinity}}')),
  json('1e999 in JSON', 'value', () => record('"tools":{"t":{"name":"x","pickup":1e999}}')),
  json('four hundred digits', 'value', () => record(`"tools":{"t":{"name":"x","pickup":${'9'.repeat(400)}}}`)),
  json('half a surrogate pair', 'syntax', () => record('"title":"\\ud800"')),
  json('deep JSON', 'limit', () => '['.repeat(100_000)),
  json('list too long', 'limit', () => record(`"x":[${'0,'.repeat(20_000)}0]`)),
  json('JSON cut off', 'syntax', () => record('"title":"x"').slice(0, -5)),
  json('text after the end', 'syntax', () => `${record('"title":"x"')} x`),
  json('null', 'type', () => 'null'),
  {
    name: 'UTF-16 with mark',
    fileName: 'a.yaml',
    kind: 'encoding',
    bytes: () => Uint8Array.of(0xff, 0xfe, ...utf16(START_YAML)),
  },
  { name: 'UTF-16 without mark', fileName: 'a.yaml', kind: 'encoding', bytes: () => utf16(START_YAML) },
  {
    name: 'Latin-1',
    fileName: 'a.yaml',
    kind: 'encoding',
    bytes: () => Uint8Array.of(...utf8(`${START_YAML}title: caf`), 0xe9),
  },
  {
    name: 'overlong UTF-8',
    fileName: 'a.yaml',
    kind: 'encoding',
    bytes: () => Uint8Array.of(...utf8(`${START_YAML}title: `), 0xc0, 0xaf),
  },
  { name: 'zero bytes', fileName: 'a.json', kind: 'encoding', bytes: () => new Uint8Array(1000) },
  {
    name: 'a picture',
    fileName: 'a.json',
    kind: 'encoding',
    bytes: () => Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10),
  },
  yaml('dangling reference', 'unknown-reference', () => `${START_YAML}parts: { a: { within: nowhere } }`),
  yaml(
    'carriers in a circle',
    'cycle',
    () => `${START_YAML}parts: { a: { within: b }, b: { within: c }, c: { within: a } }`,
  ),
];

const alike = (file: HostileFile): HostileFile => ({ ...file, alike: true });

/** Files of many megabytes, each up to the limit of a file or past it. */
export const largeHostileFiles: readonly HostileFile[] = [
  json('50 MB of opening brackets', 'limit', () => '['.repeat(50 * MEGABYTE)),
  alike(json('50 MB of empty lists', 'limit', () => `[${'[],'.repeat((50 * MEGABYTE) / 3)}[]]`)),
  alike(
    json(
      '50 MB of unknown fields',
      'limit',
      () => `{${Array.from({ length: 2_500_000 }, (_, n) => `"field${n}":0`).join(',')}}`,
    ),
  ),
  json('one text of 50 MB', 'limit', () => record(`"title":"${'x'.repeat(50 * MEGABYTE)}"`)),
  json('a hundred thousand faulty entries', 'limit', () =>
    record(
      `"sessions":{"x":{"kind":"measured","specimen":"s","start":"x","startsAs":"complete","entries":{${Array.from({ length: 100_000 }, (_, n) => `"e${n}":{"at":"x","doo":1,"target":"nowhere${n}","took":"3 g"}`).join(',')}}}}`,
    ),
  ),
  alike(yaml('50 MB of opening brackets in YAML', 'limit', () => '['.repeat(50 * MEGABYTE))),
  yaml('50 MB of dashes', 'limit', () => '- '.repeat(25 * MEGABYTE)),
  alike(yaml('50 MB of one line', 'limit', () => `title: ${'x '.repeat(25 * MEGABYTE)}`)),
  yaml('as many values as YAML may have', 'limit', () => `{${'a,'.repeat(2_200_000)}}`),
  json('a chain of carriers', 'cycle', () =>
    record(
      `"parts":{${Array.from({ length: 100_000 }, (_, n) => `"p${n}":{"within":"p${(n + 1) % 100_000}"}`).join(',')}}`,
    ),
  ),
  { name: '70 MB', fileName: 'a.yaml', kind: 'limit', bytes: () => new Uint8Array(70 * MEGABYTE).fill(0x20) },
];
