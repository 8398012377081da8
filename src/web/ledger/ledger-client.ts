import { hc } from 'hono/client';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import type { Api } from '#server/app';
import type { Clash, LedgerChange, QueuedChange } from './sync-state.ts';

/** An assessment as the server has it. */
export interface Head {
  readonly revision: number;
  readonly document: Assessment;
}

/** What the server answers to a change: taken, met by another's, or against the record's rules. */
export type Answer =
  | { readonly status: 'taken'; readonly revision: number }
  | { readonly status: 'clash' | 'refused'; readonly why: string; readonly clashes: readonly Clash[] };

/** What an error answer says (RFC 9457). */
interface ProblemAnswer {
  readonly title?: string;
  readonly detail?: string;
  readonly remedy?: string;
  readonly clashes?: readonly Clash[];
  readonly faults?: readonly { readonly path?: string; readonly what?: string; readonly message?: string }[];
}

/** An answer that is no answer: the server is away, busy, or met something it could not do. Worth trying again. */
export class NotAnswered extends Error {
  /** False where the server was not reached at all. */
  readonly reached: boolean;

  constructor(message: string, reached: boolean) {
    super(message);
    this.reached = reached;
  }
}

/** One line of the shelf, and all that begins an assessment, as the server's types have them. */
export type ShelfItem = Awaited<ReturnType<typeof readShelf>>[number];

const api = hc<Api>(typeof location === 'undefined' ? 'http://127.0.0.1' : location.origin).api;

/** Which assessments are there? The one changed last first. Throws `NotAnswered`. */
export const readShelf = async () => {
  const response = await answered(api.assessments.$get());
  return (await response.json()).assessments;
};

/** How does an assessment stand? Throws `NotAnswered`. */
export const readHead = async (assessment: string): Promise<Head> => {
  const response = await answered(api.assessments[':assessment'].$get({ param: { assessment } }));
  const { revision, document } = await response.json();
  return { revision, document: document as Assessment };
};

/** Which changes came after a revision? One answer's worth. Throws `NotAnswered`. */
export const readChanges = async (assessment: string, since: number): Promise<readonly LedgerChange[]> => {
  const request = { param: { assessment }, query: { since: String(since) } };
  const response = await answered(api.assessments[':assessment'].changes.$get(request));
  const { changes } = await response.json();
  return changes.map(({ change, revision, patch }) => ({ change, revision, patch: patch as Patch }));
};

/** Sends a change; resolves when it is on the server's disk, or when it cannot be. Throws `NotAnswered`. */
export const sendChange = async (assessment: string, change: QueuedChange): Promise<Answer> => {
  const json = { ...change, patch: [...change.patch] };
  type Sent = Parameters<(typeof api.assessments)[':assessment']['changes']['$post']>[0]['json'];
  const response = await answered(
    api.assessments[':assessment'].changes.$post({ param: { assessment }, json: json as Sent }),
    [400, 404, 409, 413, 422],
  );
  if (response.ok) return { status: 'taken', revision: (await response.json()).revision };
  const problem = await problemOf(response as unknown as Response);
  const status = (response.status as number) === 409 ? 'clash' : 'refused';
  return { status, why: wordsOf(problem), clashes: problem.clashes ?? [] };
};

/** Begins an assessment. Throws `NotAnswered` with the server's words where the document cannot be taken. */
export const beginAssessment = async (beginning: {
  readonly change: string;
  readonly assessment: string;
  readonly document: Assessment;
  readonly author: string;
  readonly at: string;
}): Promise<void> => {
  await answered(api.assessments.$post({ json: beginning }));
};

/** A response that is fit to be read: the good ones, and those the caller wants to look at. Throws `NotAnswered`. */
export const answered = async <R extends { readonly ok: boolean; readonly status: number }>(
  request: Promise<R>,
  wanted: readonly number[] = [],
): Promise<R> => {
  let response: R;
  try {
    response = await request;
  } catch {
    throw new NotAnswered('The server does not answer. What is logged here is kept in this browser.', false);
  }
  if (response.ok || wanted.includes(response.status)) return response;
  const problem = await problemOf(response as unknown as Response);
  throw new NotAnswered(wordsOf(problem), true);
};

const problemOf = async (response: Response): Promise<ProblemAnswer> => {
  try {
    return (await response.json()) as ProblemAnswer;
  } catch {
    return { title: `The server answered with ${response.status}.` };
  }
};

const wordsOf = ({ title, detail, remedy, faults }: ProblemAnswer): string => {
  const fault = faults?.[0];
  const first = fault && [fault.path, fault.message ?? fault.what].filter(Boolean).join(': ');
  const said = [...new Set([title, detail, first, remedy])].filter((words) => words !== undefined && words !== '');
  return said.map((words) => (/[.?!]$/.test(words ?? '') ? words : `${words}.`)).join(' ');
};
