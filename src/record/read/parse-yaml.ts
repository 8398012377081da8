import { type Event, parseEvents, YAMLException } from 'js-yaml';
import { limits } from '../limits.ts';
import { type WantedNode, wantedNode } from './position-index.ts';
import { limitWords, type ParsedText, ParseStop, type SourceProblem } from './source-problem.ts';
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
  if (countMarks(text) > limits.yamlMarks) return refused({ offset: 0, path: [], ...limitWords('yamlMarks') });
  let events: Event[];
  try {
    events = parseEvents(text, { maxDepth: limits.depth + 1 });
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
  for (let at = 0; at < text.length; at += 1) marks += MARK_WEIGHTS[text.charCodeAt(at)] ?? 0;
  return marks;
};

/** Events a character can give rise to: `,` `:` `?` a key and a value, `[` `{` `-` an opening and its end. */
const MARK_WEIGHTS: Readonly<Record<number, number>> = { 44: 1, 58: 2, 63: 2, 91: 2, 123: 2, 45: 1 };

const syntaxProblem = (error: unknown, text: string): SourceProblem => {
  if (!(error instanceof YAMLException)) throw error;
  const offset = Math.min(error.mark?.position ?? 0, Math.max(text.length - 1, 0));
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
