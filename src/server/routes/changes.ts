import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi';
import type { Operation } from '#record/patch/operation';
import type { ChangeHead } from '#store/ledger';
import type { ServerContext } from '../context.ts';
import { refuseShape } from '../refuse-shape.ts';
import { plainChange } from './plain.ts';
import * as shapes from './shapes.ts';

const changeAnswers = {
  200: shapes.json(shapes.acknowledgement, 'applied, and on disk'),
  ...shapes.problemAnswers({
    404: 'unknown',
    409: 'clashes with a change made since: member "clashes" holds path, base, head and wanted of each',
    422: 'not a change the record can take',
  }),
};

const changeRoute = createRoute({
  method: 'post',
  path: '/api/assessments/{assessment}/changes',
  summary: 'Change an assessment; the answer comes when the change is on disk',
  request: {
    params: shapes.assessmentParams,
    body: { required: true, content: { 'application/json': { schema: shapes.proposedChange } } },
  },
  responses: changeAnswers,
});

const undoRoute = createRoute({
  method: 'post',
  path: '/api/assessments/{assessment}/undo',
  summary: 'Take a change back by a change of its own',
  request: {
    params: shapes.assessmentParams,
    body: { required: true, content: { 'application/json': { schema: shapes.undoRequest } } },
  },
  responses: changeAnswers,
});

const changesRoute = createRoute({
  method: 'get',
  path: '/api/assessments/{assessment}/changes',
  summary: 'The changes after a revision, first to last; ask again from the last one for more',
  request: {
    params: shapes.assessmentParams,
    query: z.object({ since: z.coerce.number().int().min(0).default(0) }),
  },
  responses: {
    200: shapes.json(z.strictObject({ changes: z.array(shapes.storedChange) }), 'the changes'),
    ...shapes.problemAnswers({ 404: 'unknown' }),
  },
});

/** The addresses of changes: sending one, taking one back, reading those made. */
export const changeRoutes = ({ ledger, followers, limits }: ServerContext) =>
  new OpenAPIHono({ defaultHook: refuseShape })
    .openapi(changeRoute, async (context) => {
      const { assessment } = context.req.valid('param');
      const { base, patch, ...sent } = context.req.valid('json');
      const acknowledgement = await ledger.append({
        ...changeHead(assessment, sent),
        base,
        patch: patch as Operation[],
      });
      followers.wake(assessment);
      return context.json({ ...acknowledgement }, 200);
    })
    .openapi(undoRoute, async (context) => {
      const { assessment } = context.req.valid('param');
      const { undoes, ...sent } = context.req.valid('json');
      const acknowledgement = await ledger.undo({ ...changeHead(assessment, sent), undoes });
      followers.wake(assessment);
      return context.json({ ...acknowledgement }, 200);
    })
    .openapi(changesRoute, async (context) => {
      const { assessment } = context.req.valid('param');
      const { since } = context.req.valid('query');
      const changes = await ledger.changes(assessment, since, limits.changesPerAnswer);
      return context.json({ changes: changes.map(plainChange) }, 200);
    });

interface Sent {
  readonly change: string;
  readonly author: string;
  readonly at: string;
  readonly note?: string | undefined;
}

const changeHead = (assessment: string, { change, author, at, note }: Sent): ChangeHead => ({
  assessment,
  change,
  author,
  at,
  ...(note === undefined ? {} : { note }),
});
