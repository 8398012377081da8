import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi';
import { readRubric } from '#verdict/rubric/read-rubric';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import type { ServerContext } from '../context.ts';
import { refuseShape } from '../refuse-shape.ts';
import { faultyText } from './faulty-text.ts';
import * as shapes from './shapes.ts';

const listRoute = createRoute({
  method: 'get',
  path: '/api/rubrics',
  summary: 'Kept editions of house rubrics, the one kept last first',
  responses: { 200: shapes.json(z.strictObject({ rubrics: z.array(shapes.editionItem) }), 'the editions') },
});

const readRoute = createRoute({
  method: 'get',
  path: '/api/rubrics/{rubric}/{edition}',
  summary: 'One kept edition with its text',
  request: { params: shapes.rubricParams },
  responses: {
    200: shapes.json(shapes.keptEdition, 'the edition as it was kept'),
    ...shapes.problemAnswers({ 404: 'unknown' }),
  },
});

const addRoute = createRoute({
  method: 'post',
  path: '/api/rubrics',
  summary: 'Keep a new edition of a house rubric for good',
  request: { body: { required: true, content: { 'application/json': { schema: shapes.editionText } } } },
  responses: {
    201: shapes.json(shapes.editionItem, 'kept, and on disk'),
    ...shapes.problemAnswers({ 422: 'the text has faults (each with line and column), or the edition is taken' }),
  },
});

/** The addresses of house rubrics: the kept editions, one of them, keeping another. */
export const rubricRoutes = ({ ledger }: ServerContext) =>
  new OpenAPIHono({ defaultHook: refuseShape })
    .openapi(listRoute, async (context) => context.json({ rubrics: [...(await ledger.rubrics())] }, 200))
    .openapi(readRoute, async (context) => {
      const { rubric, edition } = context.req.valid('param');
      return context.json({ ...(await ledger.rubric(rubric, Number(edition))) }, 200);
    })
    .openapi(addRoute, async (context) => {
      const { text, author, at } = context.req.valid('json');
      const { id, edition } = rubricOf(text);
      const { text: _kept, ...item } = await ledger.addRubric({ id, edition, text, author, at });
      return context.json(item, 201);
    });

/** The rubric a text gives. Throws kind `change` with every fault and its place in the text. */
const rubricOf = (text: string): Rubric => {
  const { rubric, problems } = readRubric({ fileName: 'rubric.yaml', bytes: new TextEncoder().encode(text) });
  if (rubric) return rubric;
  throw faultyText('rubric', problems);
};
