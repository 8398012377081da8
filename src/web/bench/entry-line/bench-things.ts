import type { Device } from '#record/device/device';
import type { Assessment } from '#record/schema/assessment';

/** Something on the bench that a line can name: a part, a fastener, a tool. */
export interface BenchThing {
  readonly key: string;
  readonly kind: 'part' | 'fastener' | 'tool';
  readonly name: string;
  /** Lower-case words it is found by: its name's, its id's, what it joins, its drive. */
  readonly words: readonly string[];
  /** For a fastener: what kind, and how many. */
  readonly fastener?: { readonly kind: string; readonly count: number };
}

/** What can be named on this bench? Parts and fasteners as recorded and logged, and the tools. */
export const benchThings = ({ tools }: Pick<Assessment, 'tools'>, device: Device): readonly BenchThing[] => [
  ...[...device.parts.values()].map(
    ({ id: key, name, role }): BenchThing => ({ key, kind: 'part', name, words: wordsOf(key, name, role) }),
  ),
  ...[...device.fasteners.values()].map(
    ({ id: key, name, kind, count, between, record }): BenchThing => ({
      key,
      kind: 'fastener',
      name,
      words: wordsOf(key, name, kind, record?.drive, ...(between ?? []).map((end) => partWords(device, end))),
      fastener: { kind, count },
    }),
  ),
  ...Object.entries(tools ?? {}).map(
    ([key, { name }]): BenchThing => ({ key, kind: 'tool', name, words: wordsOf(key, name) }),
  ),
];

const partWords = (device: Device, end: string): string => `${end} ${device.parts.get(end)?.name ?? ''}`;

/** The lower-case words of some texts, each once. */
export const wordsOf = (...texts: readonly (string | undefined)[]): readonly string[] => [
  ...new Set(texts.flatMap((text) => (text ?? '').toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [])),
];
