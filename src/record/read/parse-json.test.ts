import { describe, expect, it } from 'vitest';
import { readAssessment } from './read-assessment.ts';

const problemsOf = (text: string, fileName = 'assessment.json') =>
  readAssessment({ fileName, bytes: new TextEncoder().encode(text) }).problems;
const linesOf = (text: string) => problemsOf(text).map(({ line, column, message }) => `${line}:${column} ${message}`);

describe('readAssessment of JSON that is at fault', () => {
  it.each([
    ['as a field name', "{'format': 1}", '1:2'],
    ['as a value', '{"product":\n  {"name": \'x\'}}', '2:12'],
    ['in a list', '{"a": ["b", \'c\']}', '1:13'],
    ['after a value, the comma missing', '{"a": "b" \'c\': 1}', '1:11'],
  ])('names single quotes as the fault: %s', (_where, text, place) => {
    expect(linesOf(text)).toEqual([`${place} JSON has no single quotes`]);
    expect(problemsOf(text)[0]?.remedy).toContain('double quotes');
  });

  it.each([
    ['{"product": {\n  "name": "x",\n', '{', '1:13'],
    ['{"product": {"name": "x"},\n "list": [1, {"a": 2}', '[', '2:10'],
    ['{"product": {"name": "x"}\n', '{', '1:1'],
    ['{\n"a": [1,],\n"b":', '{', '1:1'],
  ])('says which bracket of a file that is cut off is not closed: %j', (text, bracket, opened) => {
    const last = problemsOf(text).at(-1);
    expect(last?.message).toBe(
      `the text ends in the middle of the record: the ${bracket} opened at ${opened} is not closed`,
    );
    expect(last?.remedy).toContain(`Close it with ${bracket === '{' ? '}' : ']'},`);
  });

  it('says both where the file is cut off inside a text', () => {
    expect(linesOf('{"product": {"name": "ab')).toEqual([
      '1:22 the text is not closed on its line',
      '1:24 the text ends in the middle of the record: the { opened at 1:13 is not closed',
    ]);
  });

  it('says of an empty file that the record does not begin', () => {
    expect(linesOf(' ')).toEqual(['1:1 the text ends before the record begins']);
  });

  it.each(['hello', '{"product": {"name": "x",}}', '{"product": {"name": "x"} "parts": {}}', '{} // end'])(
    'says nothing of missing fields once the syntax is at fault: %j',
    (text) => {
      const problems = problemsOf(text);
      expect(problems.map(({ kind }) => kind)).toEqual(['syntax']);
    },
  );

  it('says what is missing, and what else is wrong in what could be read', () => {
    expect(problemsOf('{}').map(({ kind }) => kind)).toContain('missing-field');
    expect(problemsOf('{"nonsense": 1,}').map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['syntax', 'unknown-field']),
    );
  });
});

describe('a text of a record', () => {
  const fault = (wording: string) =>
    problemsOf(`{"format": "unfasten/assessment", "version": 1, "product": {"name": "x"}, "swaps": {"w1": {
      "specimen": "a", "part": "b", "notice": {"wording": "${wording}"}}}}`)
      .filter(({ path }) => path === 'swaps/w1/notice/wording')
      .map(({ message, remedy }) => `${message}. ${remedy}`);

  it.each([
    ['a\\u001b[31m', 'the text holds the control character U+001B. Take it out.'],
    ['\\u0000', 'the text holds the control character U+0000. Take it out.'],
  ])('holds no escape of what no file may hold: %s', (wording, said) => {
    expect(fault(wording)).toEqual([said]);
  });

  it('holds tabs, line ends, characters above U+FFFF and any script', () => {
    expect(fault('a\\tb\\r\\n\\ud83d\\udd27 لا \\u202e')).toEqual([]);
  });
});
