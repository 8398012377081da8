import type { MiddlewareHandler } from 'hono';
import { limits } from '#record/limits';
import { answerProblem, problemType } from '../problem-json.ts';
import { isDeeperThan } from './body-depth.ts';

/** How large may a JSON body be, and how long may it take to come? */
export interface BodyRules {
  /** [bytes] */
  readonly maxBytes: number;
  /** [ms] from the first byte asked for to the last. */
  readonly deadlineMilliseconds: number;
}

type Outcome = { readonly bytes: Uint8Array<ArrayBuffer> } | { readonly refused: 'too-large' | 'too-slow' };

/**
 * Is the body JSON, in time and of a size that can be held? Anything but `application/json` is refused, which a plain form
 * of a foreign site cannot send; so is any content encoding, for no decompression takes place here.
 */
export const jsonBody =
  (rules: BodyRules): MiddlewareHandler =>
  async (context, next) => {
    const type = context.req.header('content-type')?.split(';')[0]?.trim().toLowerCase();
    if (type !== 'application/json') return answerProblem(context, wrongType(type ?? ''));
    if (isEncoded(context.req.header('content-encoding'))) return answerProblem(context, encoded);
    if (Number(context.req.header('content-length') ?? 0) > rules.maxBytes)
      return answerProblem(context, refused['too-large'](rules));
    const outcome = await readWithin(context.req.raw.body, rules);
    if ('refused' in outcome) return answerProblem(context, refused[outcome.refused](rules));
    if (isDeeperThan(outcome.bytes, MOST_LEVELS)) return answerProblem(context, tooDeep);
    context.req.raw = new Request(context.req.raw.url, {
      method: context.req.method,
      headers: context.req.raw.headers,
      body: outcome.bytes,
    });
    return next();
  };

/** Does a request ask to be decompressed? `identity` is the absence of an encoding (RFC 9110 section 12.5.3). */
export const isEncoded = (encoding: string | undefined): boolean =>
  encoding !== undefined && encoding.trim().toLowerCase() !== 'identity';

const readWithin = async (body: ReadableStream<Uint8Array> | null, rules: BodyRules): Promise<Outcome> => {
  if (!body) return { bytes: new Uint8Array() };
  const reader = body.getReader();
  let timer: NodeJS.Timeout | undefined;
  const deadline = new Promise<'late'>((resolve) => {
    timer = setTimeout(resolve, rules.deadlineMilliseconds, 'late');
  });
  try {
    return await collect(reader, deadline, rules.maxBytes);
  } finally {
    clearTimeout(timer);
    reader.cancel().catch(ignore);
  }
};

/** A sender that is gone cannot be told to stop. */
const ignore = (): undefined => undefined;

const collect = async (
  reader: ReadableStreamDefaultReader<Uint8Array>,
  deadline: Promise<'late'>,
  maxBytes: number,
): Promise<Outcome> => {
  const chunks: Uint8Array[] = [];
  let total = 0;
  for (;;) {
    const read = await Promise.race([reader.read(), deadline]);
    if (read === 'late') return { refused: 'too-slow' };
    if (read.done) return { bytes: new Uint8Array(Buffer.concat(chunks)) };
    total += read.value.byteLength;
    if (total > maxBytes) return { refused: 'too-large' };
    chunks.push(read.value);
  }
};

/** A document of the deepest record, inside an operation, inside its patch, inside the body; the store names the place below that. */
const MOST_LEVELS = 2 * limits.depth;

const tooDeep = {
  type: problemType('too-deep'),
  title: 'Too deep',
  status: 400 as const,
  detail: `Maps and lists of a body lie at most ${MOST_LEVELS} deep inside each other; a record has at most ${limits.depth} (limit depth).`,
  remedy: 'Flatten it.',
};

const wrongType = (type: string) => ({
  type: problemType('wrong-media-type'),
  title: 'Not JSON',
  status: 415 as const,
  detail: 'This address takes JSON.',
  where: 'header content-type',
  value: type.slice(0, 100),
  remedy: 'Send application/json.',
});

/** The answer to a body that would have to be decompressed. */
export const encoded = {
  type: problemType('encoded-body'),
  title: 'Encoded body',
  status: 415 as const,
  detail: 'Compressed bodies are not taken, so that none can swell.',
  where: 'header content-encoding',
  remedy: 'Send the body as it is.',
};

const refused = {
  'too-large': ({ maxBytes }: BodyRules) => ({
    type: problemType('too-large'),
    title: 'Too large',
    status: 413 as const,
    detail: `A body here has at most ${maxBytes} bytes.`,
    remedy: 'Send less at once.',
  }),
  'too-slow': ({ deadlineMilliseconds }: BodyRules) => ({
    type: problemType('too-slow'),
    title: 'Too slow',
    status: 408 as const,
    detail: `The body did not come within ${deadlineMilliseconds / 1000} s.`,
    remedy: 'Send it again; what was acknowledged before stands.',
  }),
};
