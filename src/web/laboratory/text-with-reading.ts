import { isMap, parseDocument } from 'yaml';

/** How the laboratory is to read one rule from now on. */
export interface NewReading {
  readonly id: string;
  readonly reading: string;
  readonly reason: string;
  readonly by: string;
  /** Calendar day, ISO 8601. */
  readonly on: string;
}

/**
 * How does the next edition of a laboratory's document read, with one reading put in? Comments and all else stay as they are;
 * without a document it begins one under the laboratory's name.
 */
export const textWithReading = (
  text: string | undefined,
  { id, reading, reason, by, on }: NewReading,
  name: string,
): string => {
  const document = parseDocument(text ?? beginning(name, on));
  const edition = text === undefined ? 0 : Number(document.get('edition'));
  document.set('edition', edition + 1);
  document.set('date', on);
  if (!isMap(document.get('interpretations'))) document.set('interpretations', document.createNode({}));
  document.setIn(['interpretations', id], document.createNode({ reading, reason, by, on }, { flow: true }));
  return String(document);
};

/** JSON is YAML: a name with any sign in it stands quoted. */
const beginning = (name: string, on: string): string =>
  [
    'format: unfasten/laboratory',
    'version: 1',
    `id: ${JSON.stringify(idOf(name))}`,
    `name: ${JSON.stringify(name)}`,
    'edition: 0',
    `date: ${on}`,
    'interpretations:',
    '',
  ].join('\n');

/** An id of the letters and digits of a name. */
const idOf = (name: string): string =>
  name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 80) || 'laboratory';
