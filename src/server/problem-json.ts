import type { Context } from 'hono';
import type { ContentfulStatusCode } from 'hono/utils/http-status';

/** The media type of every error answer (RFC 9457, section 3). */
const PROBLEM_HEADERS = { 'Content-Type': 'application/problem+json' } as const;

/** What does an error answer say? The members of RFC 9457 section 3.1, and ours: where, which value, what to do. */
export interface ProblemJson {
  /** A URN of ours that names the kind of problem. */
  readonly type: string;
  readonly title: string;
  readonly status: ContentfulStatusCode;
  readonly detail: string;
  readonly where?: string;
  readonly value?: string;
  readonly remedy?: string;
  /** Kind-specific members: located problems of a document, clashes of a change. */
  readonly [member: string]: unknown;
}

/** What names a kind of problem? A URN, since no address of ours answers for it. */
export const problemType = (kind: string): string => `urn:unfasten:problem:${kind}`;

/** How does an error leave the server? As `application/problem+json`, never as a page or a stack trace. */
export const answerProblem = (context: Context, problem: ProblemJson): Response =>
  context.body(JSON.stringify(problem), problem.status, PROBLEM_HEADERS);
