import { Hono } from 'hono';
import type { PageFile } from '../page-files.ts';

const START = '/index.html';

/** The built page. Addresses without a file are places inside the application and get its start page. */
export const pageRoutes = (files: ReadonlyMap<string, PageFile>) =>
  new Hono().get('*', (context) => {
    const { path } = context.req;
    if (path.startsWith('/api/')) return context.notFound();
    const known = files.get(path === '/' ? START : path);
    const file = known ?? (path.startsWith('/assets/') ? undefined : files.get(START));
    if (!file) return context.notFound();
    const isForever = known !== undefined && path.startsWith('/assets/');
    const headers = {
      ETag: file.tag,
      'Cache-Control': isForever ? 'public, max-age=31536000, immutable' : 'no-cache',
    };
    if (context.req.header('if-none-match') === file.tag) return context.body(null, 304, headers);
    return context.body(file.body, 200, { ...headers, 'Content-Type': file.type });
  });
