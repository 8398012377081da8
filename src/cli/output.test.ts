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

test('createOutput lets no text of a file steer the terminal, and keeps what sets text off', () => {
  const { streams, out, err } = collectingStreams();
  const output = createOutput({ ...streams, out: { ...streams.out, isTTY: true } });
  const hostile = 'a\u001b[31m\u001b]0;title\u0007\u009b5m\u202eb\u0000\tc\nd';
  output.line(output.emphasise(hostile, 'bold'));
  output.note(hostile);
  const plain = 'a?[31m?]0;title??5m?b?\tc\nd';
  expect([out(), err()]).toEqual([`\u001b[1m${plain}\u001b[22m\n`, `${plain}\n`]);
});
