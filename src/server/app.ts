import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi';
import { HTTPException } from 'hono/http-exception';
import { isUnfastenError } from '#quantity/unfasten-error';
import type { ServerContext } from './context.ts';
import { jsonBody } from './guard/json-body.ts';
import { type OriginRules, originGuard } from './guard/origin-guard.ts';
import { rateLimit } from './guard/rate-limit.ts';
import { securityHeaders } from './guard/security-headers.ts';
import { answerProblem, problemType } from './problem-json.ts';
import { problemOfError } from './problem-of-error.ts';
import { assessmentRoutes } from './routes/assessments.ts';
import { changeRoutes } from './routes/changes.ts';
import { eventRoutes } from './routes/events.ts';
import { evidenceRoutes } from './routes/evidence.ts';
import { laboratoryRoutes } from './routes/laboratories.ts';
import { rubricRoutes } from './routes/rubrics.ts';
import { json } from './routes/shapes.ts';

const healthRoute = createRoute({
  method: 'get',
  path: '/api/health',
  summary: 'Is the server there?',
  responses: { 200: json(z.strictObject({ status: z.literal('up'), version: z.string() }), 'it is') },
});

/** What the application is built on. */
export interface AppOptions {
  readonly server: ServerContext;
  readonly origin: OriginRules;
  readonly version: string;
  /** Monotonic clock [ms]. */
  readonly nowMilliseconds: () => number;
  /** Where an error that is our bug goes; the person sees only that there was one. */
  readonly reportBug: (error: unknown) => void;
}

/** The addresses under `/api` with their shapes: what the description and the typed client are made of. */
const api = (server: ServerContext, version: string) =>
  new OpenAPIHono()
    .openapi(healthRoute, (context) => context.json({ status: 'up' as const, version }, 200))
    .route('/', assessmentRoutes(server))
    .route('/', changeRoutes(server))
    .route('/', rubricRoutes(server))
    .route('/', laboratoryRoutes(server));

/** The type the page's client is made from. */
export type Api = ReturnType<typeof api>;

/** What describes the addresses in OpenAPI 3.1? Served at `/api/openapi.json` and committed in `docs/reference/`. */
export const openApiDocument = (version: string) =>
  // The description is read off the addresses; none of them is called.
  api({} as ServerContext, version).getOpenAPI31Document({
    openapi: '3.1.0',
    info: { title: 'Unfasten', version, description: 'The ledger of the bench application, on this machine.' },
  });

/**
 * The whole server as one handler: guards first (host and origin, rate, headers), then the addresses. Errors leave as
 * `application/problem+json`; ours by kind, anything else as our bug without its words.
 */
export const createApp = ({ server, origin, version, nowMilliseconds, reportBug }: AppOptions): OpenAPIHono => {
  const { limits } = server;
  const app = new OpenAPIHono();
  app.use(securityHeaders, originGuard(origin));
  app.use(rateLimit({ perSecond: limits.requestsPerSecond, burst: limits.requestBurst }, nowMilliseconds));
  app.post('/api/*', jsonBody({ maxBytes: limits.bodyBytes, deadlineMilliseconds: limits.bodyMilliseconds }));
  app.use('/api/*', async (context, next) => {
    await next();
    if (!context.res.headers.has('Cache-Control')) context.res.headers.set('Cache-Control', 'no-store');
  });
  const description = openApiDocument(version);
  app.get('/api/openapi.json', (context) => context.json(description));
  app.route('/', api(server, version));
  app.route('/', eventRoutes(server));
  app.route('/', evidenceRoutes(server));
  app.notFound((context) => answerProblem(context, nothingHere(context.req.method, context.req.path)));
  app.onError((error, context) => {
    if (error instanceof HTTPException) return answerProblem(context, unreadable(error));
    if (isUnfastenError(error) && error.family !== 'our-bug') return answerProblem(context, problemOfError(error));
    reportBug(error);
    return answerProblem(context, bug);
  });
  return app;
};

/** A method or address that nothing answers to. */
const nothingHere = (method: string, path: string) => ({
  type: problemType('unknown-address'),
  title: 'No such address',
  status: 404 as const,
  detail: 'Nothing answers here to this method.',
  where: method,
  value: path.slice(0, 200),
  remedy: 'See /api/openapi.json for what there is.',
});

/** A request that could not be read at all: broken JSON, a broken address. */
const unreadable = ({ status, message }: HTTPException) => ({
  type: problemType('unreadable'),
  title: 'The request cannot be read',
  status,
  detail: message,
  remedy: 'Compare with /api/openapi.json.',
});

const bug = {
  type: problemType('bug'),
  title: 'Our mistake',
  status: 500 as const,
  detail: 'The server met a condition it does not know.',
  remedy: 'Nothing acknowledged is lost. Try again; if it stays, report what the server printed.',
};
