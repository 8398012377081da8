import { closeSync, mkdirSync, openSync, readFileSync, statSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import type { UnfastenError } from '#quantity/unfasten-error';
import { startServer } from '#server/start-server';
import type { Ledger } from '#store/ledger';
import { openEvidence } from '#store/open-evidence';
import { openLedger } from '#store/open-ledger';
import { share } from '../share.ts';
import { addEntry, changeOf, newAssessment, temporaryFolder } from '../store-fixtures.ts';

const root = temporaryFolder('serve-damaged');
afterAll(() => root.remove());
const CHANGES = 60;

const filledFolder = async (name: string): Promise<string> => {
  const folder = join(root.path, name);
  const { ledger } = await openLedger({ folder });
  await ledger.create(newAssessment());
  for (let revision = 1; revision < CHANGES; revision += 1)
    await ledger.append(changeOf(revision, [addEntry(`n${revision}`, revision)]));
  await ledger.close();
  return folder;
};

const filePath = (folder: string): string => join(folder, 'ledger.sqlite');

/** What every address answered, and what was reported as our bug. */
interface Asked {
  readonly answers: readonly { readonly asked: string; readonly status: number; readonly type: string }[];
  readonly bugs: readonly string[];
  readonly changes: number | undefined;
}

const serveAnd = async (
  ledger: Ledger,
  folder: string,
  work: (ask: (path: string, body?: unknown) => Promise<Response>) => Promise<void>,
): Promise<readonly string[]> => {
  const bugs: string[] = [];
  const server = await startServer({
    ledger,
    evidence: openEvidence(folder),
    page: new Map(),
    port: 0,
    version: '0',
    reportBug: (error) => bugs.push(error instanceof Error ? `${error.name}: ${error.message}` : String(error)),
  });
  try {
    await work((path, body) =>
      fetch(new URL(path, server.url), {
        ...(body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) }),
        headers: { 'content-type': 'application/json' },
      }),
    );
  } finally {
    await server.stop();
    await ledger.close();
  }
  return bugs;
};

const { assessment: _, ...onTop } = changeOf(CHANGES, [addEntry('after', 1)]);

/** Asks every address that reads or writes the ledger, as the page does. */
const askAll = async (ask: (path: string, body?: unknown) => Promise<Response>): Promise<Omit<Asked, 'bugs'>> => {
  const answers: Asked['answers'][number][] = [];
  let changes: number | undefined;
  for (const [path, body] of [
    ['api/assessments'],
    ['api/assessments/tarn-5'],
    ['api/assessments/tarn-5/changes?since=0'],
    ['api/assessments/tarn-5/changes', onTop],
    ['api/health'],
  ] as const) {
    const answer = await ask(path, body);
    const told = (await answer.json()) as { changes?: unknown[] };
    if (told.changes) changes = told.changes.length;
    const asked = body === undefined ? path : `POST ${path}`;
    answers.push({ asked, status: answer.status, type: answer.headers.get('content-type') ?? '' });
  }
  return { answers, changes };
};

const isAnswered = ({ asked, status, type }: Asked['answers'][number]): boolean =>
  status === 200
    ? type.startsWith('application/json')
    : asked !== 'api/health' && [404, 503].includes(status) && type === 'application/problem+json';

test('a damaged page is answered as a problem or does no harm, and the server goes on', {
  timeout: 300_000,
}, async () => {
  const whole = readFileSync(filePath(await filledFolder('whole')));
  const pageSize = whole.readUInt16BE(16);
  const [refused, hit]: [number[], number[]] = [[], []];
  for (let page = 1; page < whole.length / pageSize; page += share(4, 1)) {
    const folder = join(root.path, `p${page}`);
    mkdirSync(folder);
    writeFileSync(filePath(folder), Buffer.from(whole).fill(0xa5, page * pageSize, (page + 1) * pageSize));
    const opened = await openLedger({ folder }).catch((error: UnfastenError) => error);
    if (!('ledger' in opened)) {
      expect([page, opened.kind, opened.details.remedy]).toEqual([page, 'ledger', expect.stringContaining('verify')]);
      refused.push(page);
      continue;
    }
    let found: Omit<Asked, 'bugs'> | undefined;
    const bugs = await serveAnd(opened.ledger, folder, async (ask) => {
      found = await askAll(ask);
    });
    const wrong = found?.answers.filter((answer) => !isAnswered(answer));
    expect({ page, bugs, wrong }).toEqual({ page, bugs: [], wrong: [] });
    if (found?.changes !== undefined) expect([page, found.changes]).toEqual([page, CHANGES]);
    if (found?.answers.some(({ status }) => status !== 200)) hit.push(page);
  }
  expect(refused.length + hit.length).toBeGreaterThan(0);
  console.info(
    `${whole.length / pageSize} pages, every ${share(4, 1)}.: ${refused.length} refused at the start, ${hit.length} by an answer`,
  );
});

/** Writes over a place of the ledger's file behind the back of the process that has it open. */
const overwrite = (folder: string, bytes: Uint8Array, at: number): void => {
  const handle = openSync(filePath(folder), 'r+');
  writeSync(handle, bytes, 0, bytes.length, at);
  closeSync(handle);
};

test('pages damaged while it runs: problems in words, nothing taken that is not kept, and no crash', async () => {
  const folder = await filledFolder('running');
  const { ledger } = await openLedger({ folder });
  const size = statSync(filePath(folder)).size;
  let found: Omit<Asked, 'bugs'> | undefined;
  const bugs = await serveAnd(ledger, folder, async (ask) => {
    overwrite(folder, new Uint8Array(size - 4096).fill(0xa5), 4096);
    found = await askAll(ask);
  });
  const wrong = found?.answers.filter((answer) => !isAnswered(answer));
  expect({ bugs, wrong }).toEqual({ bugs: [], wrong: [] });
  expect(found?.answers.find(({ asked }) => asked.includes('since=0'))?.status).toBe(503);
});

/** Every place of a text in a file: a page that is no longer in use may hold it as well. */
const placesOf = (path: string, text: string): readonly number[] => {
  const bytes = readFileSync(path);
  const places: number[] = [];
  for (let at = bytes.indexOf(text); at >= 0; at = bytes.indexOf(text, at + 1)) places.push(at);
  return places;
};

test('a stored change that is no JSON any more is a damaged ledger, not our bug', async () => {
  const folder = await filledFolder('text');
  const places = placesOf(filePath(folder), '/sessions/x1/entries/n7"');
  expect(places.length).toBeGreaterThan(0);
  const { ledger } = await openLedger({ folder });
  let answer: Response | undefined;
  const bugs = await serveAnd(ledger, folder, async (ask) => {
    for (const at of places) overwrite(folder, new TextEncoder().encode('"""'), at);
    answer = await ask('api/assessments/tarn-5/changes?since=0');
  });
  expect([bugs, answer?.status, answer?.headers.get('content-type')]).toEqual([[], 503, 'application/problem+json']);
});
