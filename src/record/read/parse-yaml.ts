import { type Event, parseEvents, YAMLException } from 'js-yaml';
import { limitWords } from '../limit-words.ts';
import { limits } from '../limits.ts';
import { fastYaml } from './fast-yaml.ts';
import { lastOffset, type WantedNode, wantedNode } from './position-index.ts';
import { type ParsedText, ParseStop, type SourceProblem } from './source-problem.ts';
import { YamlComposer } from './yaml-composer.ts';

/** A parsed YAML text that can still be asked for places without being parsed again. */
export interface ParsedYaml extends ParsedText {
  /** Fills in the offsets of the wanted paths. */
  locate(wanted: WantedNode): void;
}

/**
 * Reads YAML 1.2 text (core schema) into plain data with every fault of the text. Tags and merge keys are refused, since
 * a record says everything in plain fields; aliases are followed, each counted as what it stands for. Cost: linear.
 */
export const parseYaml = (text: string): ParsedYaml => {
  const plain = fastYaml(text);
  if (!plain) return parseYamlClosely(text);
  const locate = (wanted: WantedNode): void => void compose(new YamlComposer(text, parseEvents(text, OPTIONS)), wanted);
  return { data: plain.data, problems: [], complete: true, locate };
};

const OPTIONS = { maxDepth: limits.depth + 1 };

/** Reads YAML text with the full parser, whether or not it is plain and without faults. */
export const parseYamlClosely = (text: string): ParsedYaml => {
  if (countMarks(text) > limits.yamlMarks) return refused({ offset: 0, path: [], ...limitWords('yamlMarks') });
  let events: Event[];
  try {
    events = parseEvents(text, OPTIONS);
  } catch (error) {
    return refused(syntaxProblem(error, text));
  }
  const composer = new YamlComposer(text, events);
  const { data, complete } = compose(composer, wantedNode());
  const locate = (wanted: WantedNode): void => void compose(new YamlComposer(text, events), wanted);
  return { data, complete, problems: composer.problems, locate };
};

const refused = (problem: SourceProblem): ParsedYaml => ({
  data: undefined,
  complete: false,
  problems: [problem],
  locate: () => undefined,
});

const compose = (composer: YamlComposer, wanted: WantedNode): { data: unknown; complete: boolean } => {
  try {
    return { data: composer.document(wanted), complete: true };
  } catch (error) {
    if (error instanceof ParseStop) return { data: undefined, complete: false };
    throw error;
  }
};

/**
 * How many values can the text open at most? An estimate from above by its marks, so that a file made of brackets is
 * refused before the parser spends memory on it.
 */
const countMarks = (text: string): number => {
  let marks = 0;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === 0x2c || code === 0x5b || code === 0x7b) marks += 2;
    else if ((code === 0x3a || code === 0x2d || code === 0x3f) && endsToken(text.charCodeAt(at + 1))) marks += 2;
  }
  return marks;
};

/** `:`, `-` and `?` are marks only before a blank or line end, and before what JSON puts right behind a colon. */
const endsToken = (code: number): boolean => !isWordCharacter(code);

const isWordCharacter = (code: number): boolean =>
  (code >= 0x30 && code <= 0x39) || (code >= 0x41 && code <= 0x5a) || (code >= 0x61 && code <= 0x7a);

const syntaxProblem = (error: unknown, text: string): SourceProblem => {
  if (!(error instanceof YAMLException)) throw error;
  const offset = Math.min(error.mark?.position ?? 0, lastOffset(text));
  if (error.reason.startsWith('nesting exceeded')) return { offset, path: [], ...limitWords('depth') };
  const line = text.slice(offset, offset + 60).split(/[\r\n]/, 1)[0];
  return {
    offset,
    path: [],
    value: line,
    message: `this is no YAML: ${error.reason}`,
    remedy: 'Check indentation (blanks, never tabs), quotes and brackets here and on the line before.',
    kind: 'syntax',
  };
};
