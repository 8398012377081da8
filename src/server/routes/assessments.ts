import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi';
import { UnfastenError } from '#quantity/unfasten-error';
import type { ServerContext } from '../context.ts';
import { refuseShape } from '../refuse-shape.ts';
import { plainDocument } from './plain.ts';
import * as shapes from './shapes.ts';

const shelfRoute = createRoute({
  method: 'get',
  path: '/api/assessments',
  summary: 'All assessments of the ledger, the one changed last first',
  responses: { 200: shapes.json(z.strictObject({ assessments: z.array(shapes.shelfItem) }), 'the shelf') },
});

const beginRoute = createRoute({
  method: 'post',
  path: '/api/assessments',
  summary: 'Begin an assessment from a whole document',
  request: { body: { required: true, content: { 'application/json': { schema: shapes.beginning } } } },
  responses: {
    201: shapes.json(shapes.acknowledgement, 'begun, and on disk'),
    ...shapes.problemAnswers({ 422: 'the document is none, the id is taken, or the shelf is full' }),
  },
});

const headRoute = createRoute({
  method: 'get',
  path: '/api/assessments/{assessment}',
  summary: 'An assessment as it stands',
  request: { params: shapes.assessmentParams },
  responses: {
    200: shapes.json(shapes.head, 'the document with its revision'),
    ...shapes.problemAnswers({ 404: 'unknown' }),
  },
});

/** The addresses of whole assessments: the shelf, beginning one, reading one. */
export const assessmentRoutes = ({ ledger, limits }: ServerContext) =>
  new OpenAPIHono({ defaultHook: refuseShape })
    .openapi(shelfRoute, async (context) => context.json({ assessments: [...(await ledger.shelf())] }, 200))
    .openapi(beginRoute, async (context) => {
      const { assessment, change, document, author, at, note } = context.req.valid('json');
      if ((await ledger.shelf()).length >= limits.assessments) throw fullShelf(limits.assessments);
      const head = { assessment: assessment ?? change, change, author, at, ...(note === undefined ? {} : { note }) };
      return context.json({ ...(await ledger.create({ ...head, document })) }, 201);
    })
    .openapi(headRoute, async (context) => {
      const head = await ledger.head(context.req.valid('param').assessment);
      return context.json({ ...head, document: plainDocument(head.document) }, 200);
    });

const fullShelf = (most: number): UnfastenError =>
  new UnfastenError('change', 'The shelf is full', {
    where: 'assessments',
    value: most,
    remedy: 'Begin another data folder.',
    faults: [],
  });
