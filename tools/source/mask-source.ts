/** What is blanked out of a source text before it is searched. */
export interface MaskOptions {
  /** Blank the contents of strings, templates and regular expressions too, so that words inside them do not count as code. */
  readonly strings: boolean;
}

type Region = 'line-comment' | 'block-comment' | 'single' | 'double' | 'template' | 'regex';

const openers: readonly (readonly [opener: string, region: Region])[] = [
  ['//', 'line-comment'],
  ['/*', 'block-comment'],
  ["'", 'single'],
  ['"', 'double'],
  ['`', 'template'],
];
const closers: Readonly<Record<Region, string>> = {
  'line-comment': '\n',
  'block-comment': '*/',
  single: "'",
  double: '"',
  template: '`',
  regex: '/',
};

/**
 * Which characters of a TypeScript source are code? Comments (and strings, if asked) become spaces; line breaks stay, so
 * that positions keep. A slash opens a regular expression where the code before it cannot end a value. Code inside
 * template placeholders counts as text.
 */
export function maskSource(source: string, { strings }: MaskOptions): string {
  const kept: string[] = [];
  let position = 0;
  while (position < source.length) {
    const region = regionAt(source, position, kept);
    if (region === undefined) {
      kept.push(source.charAt(position));
      position += 1;
      continue;
    }
    const end = regionEnd(source, position, region);
    const text = source.slice(position, end);
    kept.push(...masked(text, region, strings));
    position = end;
  }
  return kept.join('');
}

/** Quotes stay where their contents go, so that an argument still shows as one. */
function masked(text: string, region: Region, strings: boolean): string {
  const blank = (part: string) => part.replace(/[^\n]/g, ' ');
  if (region === 'line-comment' || region === 'block-comment') return blank(text);
  return strings ? text.charAt(0) + blank(text.slice(1, -1)) + text.slice(1).slice(-1) : text;
}

function regionAt(source: string, position: number, before: readonly string[]): Region | undefined {
  for (const [opener, region] of openers) if (source.startsWith(opener, position)) return region;
  return source.charAt(position) === '/' && !endsValue(before) ? 'regex' : undefined;
}

/** A name, a number or a closing bracket before a slash makes it a division. */
function endsValue(before: readonly string[]): boolean {
  for (let index = before.length - 1; index >= 0; index -= 1) {
    const character = before[index] ?? '';
    if (character.trim() !== '') return /[\w)\]$'"`]/.test(character);
  }
  return false;
}

function regionEnd(source: string, start: number, region: Region): number {
  const closer = closers[region];
  const openerLength = region === 'line-comment' || region === 'block-comment' ? 2 : 1;
  let inClass = false;
  for (let at = start + openerLength; at < source.length; at += 1) {
    const character = source.charAt(at);
    if (region === 'line-comment' && character === '\n') return at;
    if (character === '\\' && region !== 'block-comment' && region !== 'line-comment') {
      at += 1;
      continue;
    }
    if (region === 'regex') inClass = character === '[' || (inClass && character !== ']');
    if (!inClass && source.startsWith(closer, at)) return at + closer.length;
  }
  return source.length;
}
