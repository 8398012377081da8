import { Readable } from 'node:stream';
import { Hono } from 'hono';
import type { ServerContext } from '../context.ts';
import { encoded, isEncoded } from '../guard/json-body.ts';
import { answerProblem, problemType } from '../problem-json.ts';

/**
 * The addresses of evidence files. A file is sent as a stream and named by the SHA-256 of its bytes, which the answer tells;
 * the same bytes again are the same file. No name of the sender's is taken.
 */
export const evidenceRoutes = ({ evidence, limits }: ServerContext) =>
  new Hono()
    .put('/api/evidence', async (context) => {
      if (isEncoded(context.req.header('content-encoding'))) return answerProblem(context, encoded);
      if (Number(context.req.header('content-length') ?? 0) > limits.evidenceBytes)
        return answerProblem(context, tooLarge(limits.evidenceBytes));
      const body = context.req.raw.body;
      const chunks = body ? withoutStall(body.getReader(), limits.evidenceStallMilliseconds) : empty();
      try {
        return context.json(await evidence.put(chunks, limits.evidenceBytes), 201);
      } catch (error) {
        if (error instanceof Stalled) return answerProblem(context, stalled(limits.evidenceStallMilliseconds));
        throw error;
      }
    })
    .get('/api/evidence/:sha256', async (context) => {
      const name = context.req.param('sha256');
      const found = await evidence.find(name);
      if (!found) return answerProblem(context, unknownFile(name));
      const stream = Readable.toWeb(await evidence.open(name)) as ReadableStream<Uint8Array>;
      return context.body(stream, 200, {
        'Content-Type': 'application/octet-stream',
        'Content-Length': String(found.bytes),
        'Content-Disposition': 'attachment',
        'Cache-Control': 'private, max-age=31536000, immutable',
      });
    });

/** A sender that is gone cannot be told to stop. */
const ignore = (): undefined => undefined;

/** The sender went silent in the middle of a file. */
class Stalled extends Error {}

async function* empty(): AsyncGenerator<Uint8Array> {
  // A request without a body is a file without bytes.
}

/** The pieces of a body, ended with `Stalled` when none comes for too long, so that a slow sender holds nothing open. */
async function* withoutStall(
  reader: ReadableStreamDefaultReader<Uint8Array>,
  milliseconds: number,
): AsyncGenerator<Uint8Array> {
  try {
    for (;;) {
      const read = await withDeadline(reader.read(), milliseconds);
      if (read.done) return;
      yield read.value;
    }
  } finally {
    reader.cancel().catch(ignore);
  }
}

const withDeadline = async <Value>(promise: Promise<Value>, milliseconds: number): Promise<Value> => {
  let timer: NodeJS.Timeout | undefined;
  const deadline = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Stalled()), milliseconds);
  });
  try {
    return await Promise.race([promise, deadline]);
  } finally {
    clearTimeout(timer);
  }
};

const tooLarge = (most: number) => ({
  type: problemType('too-large'),
  title: 'Too large',
  status: 413 as const,
  detail: `An evidence file has at most ${most} bytes.`,
  remedy: 'Cut the recording into pieces.',
});

const stalled = (milliseconds: number) => ({
  type: problemType('too-slow'),
  title: 'Too slow',
  status: 408 as const,
  detail: `Nothing came for ${milliseconds / 1000} s; the file was not kept.`,
  remedy: 'Send it again.',
});

const unknownFile = (name: string) => ({
  type: problemType('unknown-evidence'),
  title: 'No such file',
  status: 404 as const,
  detail: 'No evidence file of this SHA-256 is here.',
  where: 'sha256',
  value: name,
  remedy: 'Send the file first.',
});
