import { expect, test } from 'vitest';
import { anchorsOf, brokenLinks } from './broken-links.ts';

test('brokenLinks finds missing files, missing anchors, plain http, absolute paths and paths out of the package', () => {
  const page = [
    '# One',
    '[a](../package.json) [b](gone.md) [c](#one) [d](#two)',
    '[e](http://example.org) [f](https://example.org) [g](/etc/hosts) [h](../../x)',
    '`[i](gone.md)`',
    '```',
    '[j](gone.md)',
    '```',
  ].join('\n');
  expect(brokenLinks('docs/page.md', page).map(({ line, target }) => [line, target])).toEqual([
    [2, 'gone.md'],
    [2, '#two'],
    [3, 'http://example.org'],
    [3, '/etc/hosts'],
    [3, '../../x'],
  ]);
});

test('anchorsOf drops punctuation, keeps hyphens and numbers repeated headings', () => {
  expect([...anchorsOf('# A *new* thing: `x`!\n## Re-use\n## Re-use\n')]).toEqual([
    'a-new-thing-x',
    're-use',
    're-use-1',
  ]);
});
