import type { MiddlewareHandler } from 'hono';

/** What may a page of ours load? Its own files alone: no inline script or style, no frame, no form, no other site. */
const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' blob: data:",
  "media-src 'self' blob:",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': CONTENT_POLICY,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=(), payment=()',
};

/** Which headers go with every answer, errors included? */
export const securityHeaders: MiddlewareHandler = async (context, next) => {
  await next();
  for (const [name, value] of Object.entries(HEADERS)) context.res.headers.set(name, value);
};
