import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import { UnfastenError } from '#quantity/unfasten-error';
import type { EvidenceStore } from '#store/evidence-store';
import type { Ledger } from '#store/ledger';
import { createApp } from './app.ts';
import { DEFAULT_LIMITS, type ServerLimits } from './context.ts';
import { Followers } from './followers.ts';
import { LOOPBACK_HOSTS } from './guard/origin-guard.ts';
import type { PageFile } from './page-files.ts';
import { pageRoutes } from './routes/page.ts';

/** What a server serves, and where. */
export interface ServerOptions {
  readonly ledger: Ledger;
  readonly evidence: EvidenceStore;
  readonly page: ReadonlyMap<string, PageFile>;
  /** 0 takes any free port. */
  readonly port: number;
  /** Address listened on; `127.0.0.1` unless said, which no other machine reaches. */
  readonly host?: string;
  /** Further names this server may be called by, for a second screen on another machine. */
  readonly allowedHosts?: readonly string[];
  readonly version: string;
  readonly limits?: Partial<ServerLimits>;
  readonly reportBug: (error: unknown) => void;
}

/** A server that listens. */
export interface RunningServer {
  readonly url: string;
  readonly port: number;
  /** Takes no more requests, ends what follows, and waits for what is being written; the ledger stays open. */
  stop(): Promise<void>;
}

/** Longest wait for a request's headers, and for the whole of one that is no upload [ms]. */
const HEADERS_MILLISECONDS = 15_000;
/** Longest wait at the end for requests under way [ms]. */
const STOP_MILLISECONDS = 5000;

/** Starts the server; resolves when it listens. Throws `UnfastenError` of kind `usage` where the port is taken. */
export const startServer = async (options: ServerOptions): Promise<RunningServer> => {
  const { ledger, evidence, version, reportBug, port, host = '127.0.0.1' } = options;
  const limits = { ...DEFAULT_LIMITS, ...options.limits };
  const closing = new AbortController();
  let listening = port;
  const app = createApp({
    server: { ledger, evidence, followers: new Followers(limits.followers), limits, closing: closing.signal },
    origin: { hosts: new Set([...LOOPBACK_HOSTS, ...(options.allowedHosts ?? [])]), port: () => listening },
    version,
    nowMilliseconds: () => performance.now(),
    reportBug,
  });
  app.route('/', pageRoutes(options.page));
  const server = createAdaptorServer({
    fetch: app.fetch,
    serverOptions: { headersTimeout: HEADERS_MILLISECONDS, requestTimeout: 0, maxHeaderSize: 16_384 },
  }) as import('node:http').Server;
  server.maxHeadersCount = 100;
  await listen(server, port, host);
  listening = (server.address() as AddressInfo).port;
  return {
    url: `http://${host === '0.0.0.0' ? '127.0.0.1' : host}:${listening}/`,
    port: listening,
    stop: () => stop(server, closing),
  };
};

const listen = (server: import('node:http').Server, port: number, host: string): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(cannotListen(error, port)));
    server.listen(port, host, resolve);
  });

const cannotListen = (error: NodeJS.ErrnoException, port: number): Error =>
  error.code === 'EADDRINUSE' || error.code === 'EACCES'
    ? new UnfastenError('usage', error.code === 'EACCES' ? 'This port may not be used' : 'This port is taken', {
        where: '--port',
        value: port,
        remedy: 'Name another with --port, or 0 for any free one.',
      })
    : error;

const stop = (server: import('node:http').Server, closing: AbortController): Promise<void> =>
  new Promise((resolve) => {
    closing.abort();
    const timer = setTimeout(() => server.closeAllConnections(), STOP_MILLISECONDS);
    server.close(() => {
      clearTimeout(timer);
      resolve();
    });
    server.closeIdleConnections();
  });
