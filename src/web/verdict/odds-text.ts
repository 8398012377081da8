import { parseDocument } from 'yaml';
import type { OddsText } from '../engine/engine-messages.ts';
import type { TypedWeights } from './weight-faults.ts';

/** Whose odds they are, and what they rest on. */
export interface OddsHead {
  readonly by: string;
  readonly reason: string;
}

/** The name that odds go by which were given on the screen. */
const FILE_NAME = 'odds.yaml';

/**
 * How does a document of odds read with the weights of one question put in, as `unfasten questions --odds` takes it? Comments and
 * all else stay as they are; without a document it begins one. A JSON document is written as YAML from then on, under the name of that.
 */
export const textWithOdds = (
  odds: OddsText | undefined,
  { by, reason }: OddsHead,
  [question, weights]: readonly [question: string, weights: TypedWeights],
): OddsText => {
  const document = parseDocument(odds?.text ?? 'format: unfasten/odds\nversion: 1\n');
  document.set('by', by);
  if (reason === '') document.delete('reason');
  else document.set('reason', reason);
  const numbers = Object.fromEntries(Object.entries(weights).map(([answer, typed]) => [answer, written(typed)]));
  if (!document.has('questions')) document.set('questions', document.createNode({}));
  document.setIn(['questions', question], document.createNode(numbers, { flow: true }));
  return { fileName: yamlName(odds), text: String(document) };
};

/** How does it read without the odds of some questions? Undefined where none are left. */
export const textWithoutOdds = (odds: OddsText, questions: readonly string[]): OddsText | undefined => {
  const document = parseDocument(odds.text);
  for (const question of questions) document.deleteIn(['questions', question]);
  const { questions: left } = document.toJS() as { readonly questions?: object };
  return Object.keys(left ?? {}).length === 0 ? undefined : { fileName: yamlName(odds), text: String(document) };
};

const yamlName = (odds: OddsText | undefined): string => odds?.fileName.replace(/\.json$/i, '.yaml') ?? FILE_NAME;

/** A fraction stays text; a number that a double does not hold as typed does too. */
const written = (typed: string): string | number => (String(Number(typed)) === typed ? Number(typed) : typed);
