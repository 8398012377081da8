import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import type { RecordLog } from '#verdict/record-log';
import { fixtureVerdict } from '../../../test/fixtures/verdict.ts';
import { renderReport } from '../render-report.ts';

const sha256Base64 = (text: string) => createHash('sha256').update(text, 'utf8').digest('base64');
const run = fixtureVerdict.swaps?.parts[0]?.runs[0]?.id ?? '';
const hostile = '<img src=x onerror=alert(1)>';
const correction = { who: hostile, isWithdrawn: false, note: 'seen on the film' };
const log: RecordLog = {
  sessions: [
    {
      id: 'm1',
      operator: hostile,
      evidence: [],
      entries: [
        {
          id: 'e1',
          at: 95,
          words: `unscrew ${hostile}`,
          tools: [],
          note: hostile,
          evidence: ['sessions/m1/entries/e2'],
        },
        { id: 'e2', at: 99, words: 'unscrew rail screws', evidence: [] },
      ],
    },
  ],
  corrections: [
    {
      ...correction,
      of: 'sessions/m1/entries/e1',
      by: 'sessions/m1/entries/e2',
      differences: [{ field: 'target', before: 'ring screws', after: 'rail screws' }],
    },
    {
      ...correction,
      of: 'swaps/hasty',
      by: `swaps/${run}`,
      differences: [{ field: 'effect', before: 'E4', after: 'E5' }],
    },
  ],
  evidence: { [fixtureVerdict.evidence[0]?.id ?? '']: { file: 'clip.mp4', session: 'm1', at: 95 } },
};
const report = renderReport(fixtureVerdict, { sha256Base64 }, { log });

test('the log shows what gave way beside what was read instead, with a wedge, by whom and why', () => {
  const [, row = ''] = /<tr id="log-m1.e1">([\s\S]*?)<\/tr>/.exec(report) ?? [];
  expect(row).toContain('<svg class="wedge"');
  expect(row.replace(/<[^>]+>/g, '')).toMatch(
    /1:35.*read otherwise by sessions\/m1\/entries\/e2, .*: target: ring screws → rail screws \(seen on the film\)/,
  );
  expect(report.split('class="wedge"')).toHaveLength(3);
});

test('a swap run read again says what was read before', () => {
  const [, row = ''] = new RegExp(`<tr id="swaps-${run}">([\\s\\S]*?)</tr>`).exec(report) ?? [];
  expect(row.replace(/<[^>]+>/g, '')).toContain('before: swaps/hasty read otherwise by swaps/');
  expect(row).toContain('effect: E4 → E5');
});

test('an entry named as evidence leads to its line, and evidence says which moment it shows', () => {
  expect(report).toContain('<a href="#log-m1.e2"><bdi>e2</bdi></a>');
  expect(report.replace(/<[^>]+>/g, '')).toContain('evidence/clip.mp4; session m1 at 1:35');
});

test('a report with its log gives every id once, no link without a goal, and escapes the log', () => {
  const ids = [...report.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id);
  expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  const goals = [...report.matchAll(/href="#([^"]*)"/g)].map(([, id]) => id);
  expect(goals.filter((goal) => !ids.includes(goal))).toEqual([]);
  expect(report).not.toContain('<img');
});
