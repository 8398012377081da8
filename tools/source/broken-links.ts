import { existsSync } from 'node:fs';
import { join, posix } from 'node:path';
import { readRepositoryFile, repositoryRoot } from './repository-files.ts';

/** One link of a Markdown page that leads nowhere. */
export interface BrokenLink {
  readonly file: string;
  readonly line: number;
  readonly target: string;
  readonly why: string;
}

const link = /!?\[[^\]]*\]\(\s*<?([^)\s>]+)>?(?:\s+"[^"]*")?\s*\)/g;

/** Fenced code is emptied, inline code blanked; line numbers keep. */
function proseLines(markdown: string): readonly string[] {
  let fenced = false;
  return markdown.split('\n').map((line) => {
    const isFence = /^\s*(?:```|~~~)/.test(line);
    if (isFence) fenced = !fenced;
    return fenced || isFence ? '' : line.replace(/`[^`]*`/g, (code) => ' '.repeat(code.length));
  });
}

/** Under which anchors can a page's headings be reached? Lower case, punctuation dropped, spaces to hyphens, repeats numbered. */
export function anchorsOf(markdown: string): ReadonlySet<string> {
  const anchors = new Set<string>();
  const source = markdown.split('\n');
  for (const [index, prose] of proseLines(markdown).entries()) {
    if (!/^#{1,6}\s/.test(prose)) continue;
    const text = (source[index] ?? '')
      .replace(/^#+\s+/, '')
      .replace(/[`*]/g, '')
      .trim()
      .toLowerCase();
    const slug = text.replace(/[^\p{L}\p{N}\s_-]/gu, '').replace(/\s/g, '-');
    let anchor = slug;
    for (let repeat = 1; anchors.has(anchor); repeat += 1) anchor = `${slug}-${repeat}`;
    anchors.add(anchor);
  }
  return anchors;
}

/** Which links of a page lead nowhere? Files and anchors are looked up; web addresses only have to be https. */
export function brokenLinks(file: string, markdown: string): readonly BrokenLink[] {
  const broken: BrokenLink[] = [];
  for (const [index, prose] of proseLines(markdown).entries()) {
    for (const match of prose.matchAll(link)) {
      const target = match[1] ?? '';
      const why = whyBroken(file, markdown, target);
      if (why !== undefined) broken.push({ file, line: index + 1, target, why });
    }
  }
  return broken;
}

function whyBroken(file: string, markdown: string, target: string): string | undefined {
  if (/^[a-z]+:/i.test(target)) return /^(?:https:\/\/|mailto:)/.test(target) ? undefined : 'is not https';
  const [path = '', anchor] = target.split('#');
  if (path.startsWith('/')) return 'is an absolute path';
  const aim = path === '' ? file : posix.join(posix.dirname(file), decodeURIComponent(path));
  if (aim.startsWith('..')) return 'leaves the package';
  if (path !== '' && !existsSync(join(repositoryRoot, aim))) return `there is no ${aim}`;
  if (anchor === undefined || !aim.endsWith('.md')) return undefined;
  const anchors = anchorsOf(path === '' ? markdown : readRepositoryFile(aim));
  return anchors.has(anchor) ? undefined : `${aim} has no heading #${anchor}`;
}
