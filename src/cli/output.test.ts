import { expect, test } from 'vitest';
import { collectingStreams } from '../../test/collecting-streams.ts';
import { createOutput, mayEmphasise } from './output.ts';

const terminal = { isTTY: true, write: () => undefined };

test('mayEmphasise only on a terminal that is not dumb, and never under NO_COLOR', () => {
  expect(mayEmphasise(terminal, {})).toBe(true);
  expect(mayEmphasise({ write: () => undefined }, {})).toBe(false);
  expect(mayEmphasise(terminal, { NO_COLOR: '1' })).toBe(false);
  expect(mayEmphasise(terminal, { NO_COLOR: '' })).toBe(true);
  expect(mayEmphasise(terminal, { TERM: 'dumb' })).toBe(false);
});

test('createOutput sends results and notes to different streams', () => {
  const { streams, out, err } = collectingStreams();
  const output = createOutput(streams);
  output.line('a');
  output.json({ b: [1] });
  output.note('c');
  expect([out(), err()]).toEqual(['a\n{\n  "b": [\n    1\n  ]\n}\n', 'c\n']);
  expect(output.emphasise('d', 'bold')).toBe('d');
});
