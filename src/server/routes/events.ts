import { Hono } from 'hono';
import { streamSSE } from 'hono/streaming';
import type { ServerContext } from '../context.ts';
import { answerProblem, problemType } from '../problem-json.ts';
import { Bell } from './bell.ts';

/** Between two signs of life on a quiet stream [ms]; below the half minute after which common proxies hang up. */
const HEARTBEAT_MILLISECONDS = 15_000;

/**
 * The address to follow an assessment by: server-sent events, one `change` for each change after the revision named by
 * `Last-Event-ID` (the header a browser sends on coming back) or `?since=`, then each as it is made. Every change is read
 * from the ledger, so that none is missed and none comes out of order. Besides, one `laboratory` with id, edition and digest of
 * the readings that hold: at first where there are any, then whenever another edition is kept. It goes on the same line because a
 * browser opens only six to one server, over all its windows.
 */
export const eventRoutes = (server: ServerContext) =>
  new Hono().get('/api/assessments/:assessment/events', async (context) => {
    const { assessment } = context.req.param();
    const { revision } = await server.ledger.head(assessment);
    if (!server.followers.hasRoom) return answerProblem(context, tooManyFollowers(server.limits.followers));
    const seen = Number(context.req.header('last-event-id') ?? context.req.query('since') ?? revision);
    const since = Number.isSafeInteger(seen) && seen >= 0 ? seen : revision;
    return streamSSE(context, async (stream) => {
      const bell = new Bell();
      const unfollow = server.followers.follow(assessment, () => bell.ring());
      const end = () => bell.close();
      stream.onAbort(end);
      server.closing.addEventListener('abort', end);
      try {
        await send(stream, { server, assessment, since, bell });
      } finally {
        unfollow();
        server.closing.removeEventListener('abort', end);
      }
    });
  });

type Stream = Parameters<Parameters<typeof streamSSE>[1]>[0];

interface Following {
  readonly server: ServerContext;
  readonly assessment: string;
  readonly since: number;
  readonly bell: Bell;
}

const send = async (stream: Stream, { server, assessment, since, bell }: Following): Promise<void> => {
  await stream.write(': following\n\n');
  let told: string | undefined;
  for (let sent = since; ; ) {
    const changes = await server.ledger.changes(assessment, sent, server.limits.changesPerAnswer);
    for (const change of changes) {
      sent = change.revision;
      await stream.writeSSE({ event: 'change', id: String(sent), data: JSON.stringify(change) });
    }
    if (changes.length > 0) continue;
    const [last] = await server.ledger.laboratories();
    if (last && last.sha256 !== told) {
      const { id, edition, sha256 } = last;
      told = sha256;
      await stream.writeSSE({ event: 'laboratory', data: JSON.stringify({ id, edition, sha256 }) });
    }
    const heard = await bell.wait(HEARTBEAT_MILLISECONDS);
    if (heard === 'closed') return;
    if (heard === 'quiet') await stream.write(': still here\n\n');
  }
};

const tooManyFollowers = (most: number) => ({
  type: problemType('too-many-followers'),
  title: 'Too many followers',
  status: 503 as const,
  detail: `This server lets ${most} follow at once.`,
  remedy: 'Close a window that follows, or try again later.',
});
