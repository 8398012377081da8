import { expect, test } from 'vitest';
import { readLaboratory } from '#verdict/laboratory/read-laboratory';
import { textWithReading } from './text-with-reading.ts';

const read = (text: string) => {
  const { laboratory, problems } = readLaboratory({ fileName: 'a.yaml', bytes: new TextEncoder().encode(text) });
  expect(problems).toEqual([]);
  return laboratory;
};
const given = { reading: 'by-itself', reason: 'a "thing": of its own', by: 'M. R.', on: '2026-11-25' };

test('textWithReading begins a document under the name of the laboratory, whatever is in it', () => {
  const text = textWithReading(undefined, { id: 'unplugging', ...given }, 'Quay: "side" & Söhne');
  expect(read(text)).toEqual({
    format: 'unfasten/laboratory',
    version: 1,
    id: 'quay-side-s-hne',
    name: 'Quay: "side" & Söhne',
    edition: 1,
    date: '2026-11-25',
    interpretations: { unplugging: given },
  });
  expect(read(textWithReading(undefined, { id: 'unplugging', ...given }, '設計'))?.id).toBe('laboratory');
});

test('textWithReading makes the next edition, replaces a reading of the same rule, and keeps comments', () => {
  const first = textWithReading(undefined, { id: 'unplugging', ...given }, 'Quayside Bench');
  const noted = first.replace('interpretations:', '# agreed in the meeting\ninterpretations:');
  const second = textWithReading(noted, { ...given, id: 'reheating', reading: 'once-per-place' }, 'other');
  expect(second).toContain('# agreed in the meeting');
  const third = read(textWithReading(second, { ...given, id: 'unplugging', reading: 'with-the-part' }, 'other'));
  expect([third?.edition, third?.name]).toEqual([3, 'Quayside Bench']);
  expect(Object.entries(third?.interpretations ?? {}).map(([id, { reading }]) => [id, reading])).toEqual([
    ['unplugging', 'with-the-part'],
    ['reheating', 'once-per-place'],
  ]);
});
