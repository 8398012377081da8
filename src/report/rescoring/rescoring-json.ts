import type { Rescoring } from '#verdict/rescore/rescoring';
import { canonicalJson } from '../export/canonical-json.ts';

const NO_ITEMS = '\n  "items": []';

/** How does a rescoring read for other programs? The canonical JSON of all of it, record by record, so that it is never held whole. */
export function* renderRescoringJson(rescoring: Rescoring): Generator<string, void> {
  // No text of a record can look like the key: its line ends stand escaped, and inner keys are set in further.
  const [head = '', tail = ''] = canonicalJson({ ...rescoring, items: [] }).split(NO_ITEMS);
  yield `${head}\n  "items": [`;
  let isFirst = true;
  for (const item of rescoring.items) {
    yield `${isFirst ? '' : ','}\n    ${canonicalJson(item).trimEnd().replaceAll('\n', '\n    ')}`;
    isFirst = false;
  }
  yield `${isFirst ? '' : '\n  '}]${tail}`;
}
