import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';

/** One file of the built page, held in memory. */
export interface PageFile {
  readonly body: Uint8Array<ArrayBuffer>;
  readonly type: string;
  /** Strong entity tag (RFC 9110 section 8.8.3): the start of the SHA-256 of the bytes. */
  readonly tag: string;
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json',
  '.txt': 'text/plain; charset=utf-8',
};

/**
 * Which files make the page? All under a folder, read once at the start, keyed by their address. A request only looks up
 * this map: no path from outside ever reaches the file system. Files of unknown kinds are left out.
 */
export const readPageFiles = async (folder: string): Promise<ReadonlyMap<string, PageFile>> => {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile() && extname(entry.name) in TYPES);
  const pages = await Promise.all(
    files.map(async (entry) => {
      const path = join(entry.parentPath, entry.name);
      const address = path.slice(folder.length).replaceAll('\\', '/');
      return [address.startsWith('/') ? address : `/${address}`, await pageFile(path)] as const;
    }),
  );
  return new Map(pages);
};

const pageFile = async (path: string): Promise<PageFile> => {
  const body = new Uint8Array(await readFile(path));
  const tag = `"${createHash('sha256').update(body).digest('base64url').slice(0, 22)}"`;
  return { body, type: TYPES[extname(path)] ?? 'application/octet-stream', tag };
};
