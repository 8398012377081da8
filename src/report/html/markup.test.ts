import fc from 'fast-check';
import { expect, test } from 'vitest';
import { escapeText, html, joined, quoted, render, trusted } from './markup.ts';

test('html escapes every value and keeps its own text', () => {
  expect(html`<p title="${'"><script>'}">${"a & b's"}${undefined}${3}</p>`.text).toBe(
    '<p title="&quot;&gt;&lt;script&gt;">a &amp; b&#39;s3</p>',
  );
});

test('html takes finished markup and lists as they are', () => {
  expect(html`<ul>${[html`<li>${'<'}</li>`, trusted('<hr>')]}</ul>`.text).toBe('<ul><li>&lt;</li><hr></ul>');
  expect(joined(['a', html`<b>b</b>`], ' & ').text).toBe('a &amp; <b>b</b>');
  expect(render(quoted('\u202Eevil'))).toBe('<bdi>\u202Eevil</bdi>');
});

test('escapeText replaces what no document may carry and keeps emoji and other scripts', () => {
  expect(escapeText('\u0000\u0008\u001b\u0085\ud800\uffff')).toBe('\ufffd'.repeat(6));
  expect(escapeText('🔧 מסך\t\n')).toBe('🔧 מסך\t\n');
});

test('escapeText leaves no way to open a tag, close an attribute or start a reference', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const escaped = escapeText(text);
      expect(escaped).not.toMatch(/[<>"']|&(?!(?:amp|lt|gt|quot|#39);)/);
    }),
    { seed: 20_261_125 },
  );
});
