import { expect, it } from 'vitest';
import type { Assessment, Untried } from '#record/schema/assessment';
import { renderReport } from '#report/render-report';
import { computeVerdict } from '#verdict/compute-verdict';
import type { Verdict } from '#verdict/verdict';
import { tinyRecord, tinySession } from '../fixtures/tiny-record.ts';

/** A battery behind a cover, by a log without a goal: whether the cover must be off is not known. */
const record = tinyRecord({
  parts: { battery: { role: 'battery' }, cover: { role: 'back-cover' } },
  fasteners: {
    clips: { kind: 'clip', between: ['cover', 'chassis'], ways: { pry: { actions: [{ do: 'release-clips' }] } } },
    plug: {
      kind: 'connector',
      between: ['battery', 'chassis'],
      behind: [],
      ways: { pull: { actions: [{ do: 'unplug' }] } },
    },
  },
  sessions: {
    s: tinySession({
      a: { do: 'release-clips', target: 'clips', tools: [] },
      b: { do: 'lift', target: 'cover', tools: [], free: ['cover'] },
      c: { do: 'unplug', target: 'plug', tools: [] },
      d: { do: 'lift', target: 'battery', tools: [], free: ['battery'] },
    }),
  },
});
const verdictOf = (assessment: Assessment): Verdict => computeVerdict(assessment, { recordDigest: 'x' });
const report = (verdict: Verdict): string => renderReport(verdict, { sha256Base64: () => 'x' });

/** The record with the same said of a part as a trial, or as a question that was not tried. */
const withPart = (part: string, said: object): Assessment => ({
  ...record,
  parts: { ...record.parts, [part]: { ...record.parts?.[part], ...said } },
});

it('a question not tried moves no route, no width and no figure, is listed in the report, and a trial does move', () => {
  const question: Untried = { off: ['plug'], stillIn: ['cover'], session: 's' };
  const plain = verdictOf(withPart('battery', {}));
  const waved = verdictOf(withPart('battery', { untried: { q1: question } }));
  const { untried: listed, ...examined } = waved.examined;
  expect({ ...waved, examined }).toEqual(plain);
  expect(listed).toEqual([{ address: 'parts/battery/untried/q1', part: 'battery', stillIn: ['cover'], session: 's' }]);
  expect(report(waved)).toContain('Not tried while it could be');
  expect(report(plain)).not.toContain('Not tried while it could be');
  const tried = verdictOf(withPart('battery', { trials: { q1: { off: ['plug'], came: 'yes', session: 's' } } }));
  expect(tried.parts).not.toEqual(plain.parts);
});
