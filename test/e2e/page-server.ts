import { randomUUID } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { readPageFiles } from '#server/page-files';
import { type RunningServer, startServer } from '#server/start-server';
import type { Ledger } from '#store/ledger';
import { openEvidence } from '#store/open-evidence';
import { openLedger } from '#store/open-ledger';
import { buildIfStale } from '../build-if-stale.ts';

const root = resolve(fileURLToPath(new URL('../..', import.meta.url)));

/** The application as it is served, over a ledger of its own. */
export interface PageServer {
  readonly url: string;
  readonly ledger: Ledger;
  /** The data folder. */
  readonly folder: string;
  /** Ends the server and leaves the ledger as it is: the page's requests find nobody. */
  down(): Promise<void>;
  /** Starts it again at the same address. */
  up(): Promise<void>;
  stop(): Promise<void>;
}

/** What stands in the ledger at first besides examples. */
export interface ServedFrom {
  /** A data folder that is there already; a fresh one unless said. */
  readonly folder?: string;
  readonly documents?: Readonly<Record<string, Assessment>>;
}

/** Builds the page and serves it over a fresh ledger with some of the examples in it. */
export async function servePage(examples: readonly string[], from: ServedFrom = {}): Promise<PageServer> {
  buildIfStale();
  const folder = from.folder ?? mkdtempSync(join(tmpdir(), 'unfasten-page-'));
  const { ledger } = await openLedger({ folder });
  const documents = { ...Object.fromEntries(examples.map((name) => [name, exampleOf(name)])), ...from.documents };
  for (const [assessment, document] of Object.entries(documents)) {
    const head = { assessment, change: randomUUID(), author: 'test', at: '2026-11-25T10:00:00+00:00' };
    await ledger.create({ ...head, document });
  }
  const listen = await listener(ledger, folder);
  let server = await listen(0);
  const { url, port } = server;
  const stop = async () => {
    await server.stop();
    await ledger.close();
    rmSync(folder, { recursive: true, force: true });
  };
  const up = async () => {
    server = await listen(port);
  };
  return { url, ledger, folder, down: () => server.stop(), up, stop };
}

const exampleOf = (name: string): unknown => {
  const bytes = readFileSync(join(root, 'examples', name, 'assessment.yaml'));
  return readAssessment({ fileName: 'assessment.yaml', bytes }).assessment;
};

const listener = async (ledger: Ledger, folder: string): Promise<(port: number) => Promise<RunningServer>> => {
  const evidence = openEvidence(folder);
  const page = await readPageFiles(join(root, 'dist', 'web'));
  const reportBug = (error: unknown) => {
    throw error;
  };
  return (port) => startServer({ ledger, evidence, page, port, version: 'test', reportBug });
};
