import type { Context } from 'hono';
import type { core } from 'zod';
import { answerProblem, problemType } from './problem-json.ts';

/** What did the check of a request's shape find? */
type ShapeResult = { readonly success: true } | { readonly success: false; readonly error: core.$ZodError };

/** How is a request of the wrong shape answered? With the place and the reason of its first faults, never with its values. */
export const refuseShape = (result: ShapeResult, context: Context): Response | undefined => {
  if (result.success) return undefined;
  const faults = result.error.issues.slice(0, 20).map((issue) => ({
    where: issue.path.map(String).join('.').slice(0, 200),
    what: issue.message.slice(0, 300),
  }));
  return answerProblem(context, {
    type: problemType('wrong-shape'),
    title: 'Not what this address takes',
    status: 400,
    detail: faults[0]?.what ?? 'The request does not have the shape described in /api/openapi.json.',
    where: faults[0]?.where ?? '',
    remedy: 'Compare with /api/openapi.json.',
    faults,
  });
};
