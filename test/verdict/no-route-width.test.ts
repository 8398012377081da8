import { expect, test } from 'vitest';
import { groundworkOf, indexBases, readingsOf } from '#verdict/index-bases';
import { smallRecord } from '../records/small-record.ts';

test('indexBases: a part with no route and no fastener recorded has the whole scale open for fastener and tool', () => {
  const record = smallRecord({ parts: { spk: { role: 'speaker' } }, fasteners: {}, sessions: {} });
  const best = indexBases(groundworkOf(record), readingsOf(record)).find(({ basis }) => basis === 'best');
  expect(best?.figures.parts.speaker).toEqual({ steps: null, DD: null, F: null, T: null });
  expect(best?.low?.parts.speaker).toEqual({ steps: null, DD: 1, F: 1, T: 1 });
  expect(best?.mayBeNotScorable).toBe(true);
});
