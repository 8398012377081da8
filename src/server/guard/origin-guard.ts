import type { MiddlewareHandler } from 'hono';
import { answerProblem, problemType } from '../problem-json.ts';

/** Which names may this server be called by, and from which pages? */
export interface OriginRules {
  /** Host header values without port, lower case: `127.0.0.1`, `localhost`, `[::1]`, and what `--allow-host` adds. */
  readonly hosts: ReadonlySet<string>;
  /** The port listened on, asked at each request because port 0 is settled late. */
  readonly port: () => number;
}

/** By which names does this machine reach itself? Nothing else is accepted by default (RFC 6761 section 6.3 for `localhost`). */
export const LOOPBACK_HOSTS: ReadonlySet<string> = new Set(['127.0.0.1', 'localhost', '[::1]']);

/**
 * May this request come in? Only when its Host is ours, which a name rebound to this address is not; and when its Origin,
 * where a browser sends one, is a page of ours, which a foreign site's post is not. `Sec-Fetch-Site: cross-site` is refused
 * but for plain navigation, so that a link to the application works.
 */
export const originGuard =
  (rules: OriginRules): MiddlewareHandler =>
  async (context, next) => {
    const host = context.req.header('host');
    if (host === undefined || !isOurs(host, rules))
      return answerProblem(context, refusal('host', host ?? '', 'Call the application by the address it printed.'));
    const origin = context.req.header('origin');
    if (origin !== undefined && !isOurOrigin(origin, rules))
      return answerProblem(context, refusal('origin', origin, 'Use the page this server serves.'));
    if (context.req.header('sec-fetch-site') === 'cross-site' && context.req.header('sec-fetch-mode') !== 'navigate')
      return answerProblem(context, refusal('origin', 'cross-site', 'Use the page this server serves.'));
    return next();
  };

const isOurs = (host: string, { hosts, port }: OriginRules): boolean => {
  const match = /^(?<name>\[[0-9a-f:]+\]|[^:[\]]+)(?::(?<port>\d{1,5}))?$/i.exec(host);
  const name = match?.groups?.name?.toLowerCase();
  return name !== undefined && hosts.has(name) && Number(match?.groups?.port ?? 80) === port();
};

const isOurOrigin = (origin: string, rules: OriginRules): boolean => {
  const scheme = 'http://';
  return origin.startsWith(scheme) && isOurs(origin.slice(scheme.length), rules);
};

const refusal = (header: string, value: string, remedy: string) => ({
  type: problemType(`foreign-${header}`),
  title: `Foreign ${header}`,
  status: 403 as const,
  detail: `This server does not answer for the ${header} that the request names.`,
  where: `header ${header}`,
  value: value.slice(0, 200),
  remedy,
});
