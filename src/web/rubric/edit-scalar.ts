import type { PathSegment } from '#record/problem';
import { parseYaml } from '#record/read/parse-yaml';
import { offsetOf, wantedTree } from '#record/read/position-index';

/**
 * How does the text of a YAML document read with one plain value replaced? Everything else stays as it is written, comments
 * too. Undefined where nothing stands at the path on one line.
 */
export const editScalar = (text: string, path: readonly PathSegment[], value: string): string | undefined => {
  const wanted = wantedTree([path]);
  const parsed = parseYaml(text);
  parsed.locate(wanted);
  const at = offsetOf(wanted, path, 'value');
  if (at === offsetOf(wanted, path, 'key')) return undefined;
  const written = /^(?:"[^"\n]*"|'[^'\n]*'|[^\s,{}[\]#][^,{}[\]#\n]*?(?=\s*(?:[,}\]\n]|\s#|$)))/.exec(
    text.slice(at),
  )?.[0];
  if (written === undefined) return undefined;
  const plain = /^-?\d+(\.\d+)?$|^\d{4}-\d\d-\d\d$/.test(value);
  return `${text.slice(0, at)}${plain ? value : JSON.stringify(value)}${text.slice(at + written.length)}`;
};
