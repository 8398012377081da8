import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { type DraftStore, keepDrafts, keptDrafts } from './kept-run.ts';
import { newFit, newRun } from './run-draft.ts';
import { SwapsClient, type SwapsPort } from './swaps-client.ts';
import type { SwapsAnswer, SwapsRequest, SwapsStage } from './swaps-messages.ts';

/** A port that answers when told to. */
class Port implements SwapsPort {
  readonly asked: SwapsRequest[] = [];
  private hear: (event: { readonly data: SwapsAnswer }) => void = () => undefined;
  fail: (event: { readonly message?: string }) => void = () => undefined;

  postMessage(request: SwapsRequest): void {
    this.asked.push(request);
  }

  addEventListener(type: 'message' | 'error', listener: never): void {
    if (type === 'message') this.hear = listener;
    else this.fail = listener;
  }

  terminate(): void {
    this.hear = () => undefined;
  }

  answer(stage: SwapsStage): void {
    this.hear({ data: { ...stage, generation: this.asked.at(-1)?.generation ?? 0 } });
  }
}

const documentOf = (name: string): Assessment => ({ format: 'unfasten/assessment', version: 1, product: { name } });
const seen: SwapsStage = { stage: 'swaps', swaps: undefined, last: false };
const next = { stage: 'next', next: { why: 'nothing is open' }, last: true } satisfies SwapsStage;

test('what the runs say is there before the next run is, each with the document it is of', () => {
  const port = new Port();
  const client = new SwapsClient(() => port);
  const document = documentOf('one');
  client.ask({ document });
  port.answer(seen);
  expect(client.look()).toMatchObject({ swapsOf: document, busy: true });
  port.answer(next);
  expect(client.look()).toMatchObject({ nextOf: document, next: { why: 'nothing is open' }, busy: false });
});

test('of documents that came meanwhile only the newest is asked about, and old answers keep their document', () => {
  const port = new Port();
  const client = new SwapsClient(() => port);
  const documents = ['one', 'two', 'three'].map(documentOf);
  for (const document of documents) client.ask({ document });
  port.answer(seen);
  port.answer(next);
  expect(port.asked.map(({ document }) => document.product.name)).toEqual(['one', 'three']);
  expect(client.look()).toMatchObject({ swapsOf: documents[0], busy: true });
});

test('an engine that stops says so, and is started anew for the next document', () => {
  const ports: Port[] = [];
  const client = new SwapsClient(() => {
    ports.push(new Port());
    return ports.at(-1) as Port;
  });
  client.ask({ document: documentOf('one') });
  ports[0]?.fail({ message: 'out of memory' });
  expect(client.look()).toMatchObject({ busy: false, problem: expect.stringContaining('out of memory') });
  client.ask({ document: documentOf('two') });
  ports[1]?.answer(next);
  expect(client.look()).toEqual({ next: next.next, nextOf: documentOf('two'), busy: false });
});

test('of drafts that another version or a hand wrote, what is of its sort comes back and nothing else', () => {
  const fit = { ...newFit('battery'), note: 'kept', corrects: 'w1', stays: true, checks: { starts: 'pass' as const } };
  const run = { ...newRun(7, 'c'), account: 'x', evidence: ['e'], fits: [fit] };
  const { soak: _soak, ...without } = run;
  const odd = {
    ...without,
    network: 3,
    evidence: [1, 'e'],
    fits: [{ ...fit, piece: 'own', measured: [null] }, {}, null],
  };
  const kept = (value: unknown) =>
    keptDrafts('tarn-5', () => ({ getItem: () => JSON.stringify(value) }) as unknown as DraftStore);
  expect(kept([run])).toEqual([run]);
  expect(kept([odd, 1, {}, null, { run: 1 }])).toEqual([run]);
  expect([kept({}), kept('x'), kept(null)]).toEqual([[], [], []]);
});

test('drafts come back as they were, broken stores give none, and a browser that keeps nothing says so', () => {
  const items = new Map<string, string>();
  const store: DraftStore = {
    getItem: (key) => items.get(key) ?? null,
    setItem: (key, value) => items.set(key, value),
    removeItem: (key) => items.delete(key),
  };
  const drafts = [{ ...newRun(7, 'c'), account: '<b>\u202eلا' }];
  expect(keepDrafts('tarn-5', drafts, () => store)).toBe(true);
  expect(keptDrafts('tarn-5', () => store)).toEqual(drafts);
  expect(keptDrafts('tarn-4', () => store)).toEqual([]);
  for (const key of items.keys()) items.set(key, '{');
  expect(keptDrafts('tarn-5', () => store)).toEqual([]);
  const none = (): DraftStore => {
    throw new Error('denied');
  };
  expect([keepDrafts('tarn-5', drafts, none), keptDrafts('tarn-5', none)]).toEqual([false, []]);
});
