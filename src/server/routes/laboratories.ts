import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi';
import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import { readLaboratory } from '#verdict/laboratory/read-laboratory';
import type { ServerContext } from '../context.ts';
import { refuseShape } from '../refuse-shape.ts';
import { faultyText } from './faulty-text.ts';
import * as shapes from './shapes.ts';

const listRoute = createRoute({
  method: 'get',
  path: '/api/laboratories',
  summary:
    "Kept editions of laboratories' readings, the one kept last first: it holds where an assessment chooses none",
  responses: { 200: shapes.json(z.strictObject({ laboratories: z.array(shapes.editionItem) }), 'the editions') },
});

const readRoute = createRoute({
  method: 'get',
  path: '/api/laboratories/{laboratory}/{edition}',
  summary: 'One kept edition with its text',
  request: { params: shapes.laboratoryParams },
  responses: {
    200: shapes.json(shapes.keptEdition, 'the edition as it was kept'),
    ...shapes.problemAnswers({ 404: 'unknown' }),
  },
});

const addRoute = createRoute({
  method: 'post',
  path: '/api/laboratories',
  summary: "Keep a new edition of a laboratory's readings for good",
  request: { body: { required: true, content: { 'application/json': { schema: shapes.editionText } } } },
  responses: {
    201: shapes.json(shapes.editionItem, 'kept, and on disk'),
    ...shapes.problemAnswers({ 422: 'the text has faults (each with line and column), or the edition is taken' }),
  },
});

/** The addresses of laboratories' readings: the kept editions, one of them, keeping another. */
export const laboratoryRoutes = ({ ledger, followers }: ServerContext) =>
  new OpenAPIHono({ defaultHook: refuseShape })
    .openapi(listRoute, async (context) => context.json({ laboratories: [...(await ledger.laboratories())] }, 200))
    .openapi(readRoute, async (context) => {
      const { laboratory, edition } = context.req.valid('param');
      return context.json({ ...(await ledger.laboratory(laboratory, Number(edition))) }, 200);
    })
    .openapi(addRoute, async (context) => {
      const { text, author, at } = context.req.valid('json');
      const { id, edition } = laboratoryOf(text);
      const { text: _kept, ...item } = await ledger.addLaboratory({ id, edition, text, author, at });
      followers.wakeAll();
      return context.json(item, 201);
    });

/** The readings a text gives. Throws kind `change` with every fault and its place in the text. */
const laboratoryOf = (text: string): Laboratory => {
  const file = { fileName: 'laboratory.yaml', bytes: new TextEncoder().encode(text) };
  const { laboratory, problems } = readLaboratory(file);
  if (laboratory) return laboratory;
  throw faultyText('laboratory', problems);
};
