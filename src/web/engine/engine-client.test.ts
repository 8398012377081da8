import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { computeVerdict } from '#verdict/compute-verdict';
import { computeOutlook, type Outlook } from '#verdict/outlook/outlook';
import type { FiguresVerdict, Verdict } from '#verdict/verdict';
import { scoreSheetX } from '../../../test/records/score-sheet-x.ts';
import { answersTo } from './answer-request.ts';
import { EngineClient, type EnginePort } from './engine-client.ts';
import type { EngineAnswer, EngineRequest } from './engine-messages.ts';
import { StagedAnswers } from './staged-answers.ts';

const file = new URL('../../../examples/quick-log/assessment.yaml', import.meta.url);
const { assessment: logged } = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) });
const document = logged as Assessment;
const sheet = new URL('../../../examples/beck-11/assessment.yaml', import.meta.url);
const declared = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(sheet) }).assessment as Assessment;

const NOTHING_OPEN: Outlook = { bases: [], questions: [] };

/** A port that answers when told to. */
class Port implements EnginePort {
  asked: EngineRequest[] = [];
  ended = false;
  private hear: (event: { readonly data: EngineAnswer }) => void = () => undefined;
  private fail: (event: { readonly message?: string }) => void = () => undefined;

  postMessage(request: EngineRequest): void {
    this.asked.push(request);
  }

  addEventListener(type: 'message' | 'error', listener: never): void {
    if (type === 'message') this.hear = listener;
    else this.fail = listener;
  }

  terminate(): void {
    this.ended = true;
  }

  /** Says of the request with this number (from 0) that it gives nothing, its figures alone, its verdict, or its outlook. */
  answer(index: number, stage: EngineAnswer['stage'] = 'problem', last = true): void {
    const request = this.asked[index];
    if (!request) return;
    const { generation, revision } = request;
    const figures = { heading: "assessor's determination" } as FiguresVerdict;
    if (stage === 'figures') this.hear({ data: { generation, revision, stage, figures } });
    else if (stage === 'whole') this.hear({ data: { generation, revision, stage, verdict: figures as Verdict } });
    else if (stage === 'outlook') this.hear({ data: { generation, revision, stage, outlook: NOTHING_OPEN, last } });
    else this.hear({ data: { generation, revision, stage, problem: `said of ${revision}` } });
  }

  crash(message: string): void {
    this.fail({ message });
  }
}

const copy = (): Assessment => ({ ...document });

const saidTo = (request: EngineRequest): readonly EngineAnswer[] =>
  [...answersTo(request)].flatMap((said) => said ?? []);

test('answersTo gives the figures first, then the verdict of the command line, with the revision it belongs to', () => {
  const [first, second, ...rest] = saidTo({ generation: 3, revision: 17, document });
  expect([first?.stage, first?.revision, second?.stage, second?.revision, rest]).toEqual([
    'figures',
    17,
    'whole',
    17,
    [],
  ]);
  const whole = computeVerdict(document, { recordDigest: '' });
  if (first?.stage !== 'figures' || second?.stage !== 'whole') throw new Error('no figures');
  expect(second.verdict).toEqual(whole);
  const { parts: _parts, burden: _burden, interpretations: _readings, duties: _duties, ...figures } = whole;
  const weighed = first.figures.bases.map((basis, index) => ({ ...basis, letter: whole.bases[index]?.letter }));
  expect({ ...first.figures, bases: weighed }).toEqual(figures);
});

test('the figures never call a letter settled before the other readings are weighed', () => {
  const [first] = saidTo({ generation: 1, revision: 1, document: declared });
  if (first?.stage !== 'figures') throw new Error('no figures');
  expect(first.figures.bases.map(({ letter }) => letter.state)).toContain('unweighed');
  expect(first.figures.bases.map(({ letter }) => letter.state)).not.toContain('settled');
});

test('answersTo says in words what is wrong with a record', () => {
  const fasteners = {
    ...document.fasteners,
    bolt: { kind: 'screw' as const, between: ['nowhere', 'chassis'] as [string, string] },
  };
  const [said, ...more] = saidTo({ generation: 1, revision: 1, document: { ...document, fasteners } });
  expect([said?.stage, more]).toEqual(['problem', []]);
  expect(said?.stage === 'problem' && said.problem).toMatch(/^fasteners\/bolt\/between\/0: .*"nowhere"/);
});

test('answersTo gives the outlook of the command line after the verdict, its questions before its ends; only when it is wanted', () => {
  const battery = { steps: 8, fastener: 'resupplied', tool: 'basic', remoteActions: undefined };
  const sheetOnly = scoreSheetX({ parts: { battery } });
  const said = saidTo({ generation: 1, revision: 2, document: sheetOnly, wants: 'outlook' });
  expect(said.map(({ stage }) => stage)).toEqual(['figures', 'whole', 'outlook', 'outlook']);
  const [, , first, last] = said;
  if (first?.stage !== 'outlook' || last?.stage !== 'outlook') throw new Error('no outlook');
  const whole = computeOutlook(sheetOnly);
  expect([last.outlook, last.last, last.revision]).toEqual([whole, true, 2]);
  const early = { ...whole, bases: whole.bases.map((basis) => ({ ...basis, figures: [] })) };
  expect([first.outlook, first.last]).toEqual([early, false]);
  expect(saidTo({ generation: 1, revision: 2, document: sheetOnly }).map(({ stage }) => stage)).toEqual([
    'figures',
    'whole',
  ]);
});

test('EngineClient asks for the outlook only where it is wanted, and never takes one of an older document', () => {
  const port = new Port();
  new EngineClient(() => port).compute(copy(), 1);
  expect(port.asked[0]?.wants).toBeUndefined();
  const engine = new EngineClient(() => port, 'outlook');
  const [first, second] = [copy(), copy()];
  engine.compute(first, 2);
  expect([port.asked[1]?.wants, engine.look().outlookBusy]).toEqual(['outlook', true]);
  port.answer(1, 'whole');
  expect([engine.look().busy, engine.look().outlookBusy]).toEqual([false, true]);
  port.answer(1, 'outlook', false);
  expect([engine.look().outlook, engine.look().outlookRevision, engine.look().outlookBusy]).toEqual([
    NOTHING_OPEN,
    2,
    true,
  ]);
  engine.compute(second, 3);
  port.answer(1, 'outlook');
  expect([engine.look().outlookOf === first, engine.look().outlookBusy]).toEqual([true, true]);
  port.answer(2, 'whole');
  port.answer(2, 'outlook');
  expect([engine.look().outlookRevision, engine.look().outlookBusy]).toEqual([3, false]);
  engine.compute(copy(), 4);
  port.answer(3, 'problem');
  expect([engine.look().outlookRevision, engine.look().outlookBusy]).toEqual([3, false]);
});

test('EngineClient shows figures as soon as they come, and never an answer to an older document than it shows', () => {
  const port = new Port();
  const engine = new EngineClient(() => port);
  const [first, second, third] = [copy(), copy(), copy()];
  engine.compute(first, 1);
  engine.compute(second, 2);
  port.answer(1, 'figures');
  expect([engine.look().figuresOf === second, engine.look().figuresRevision, engine.look().busy]).toEqual([
    true,
    2,
    true,
  ]);
  port.answer(0);
  expect(engine.look().problem).toBeUndefined();
  engine.compute(third, 3);
  port.answer(1);
  expect([engine.look().problem, engine.look().busy]).toEqual(['said of 2', true]);
  port.answer(2);
  expect([engine.look().problem, engine.look().busy]).toEqual(['said of 3', false]);
  engine.compute(third, 3);
  expect(port.asked.length).toBe(3);
});

test('EngineClient takes over the revision that a document was given after its figures were worked out', () => {
  const port = new Port();
  const engine = new EngineClient(() => port);
  const made = copy();
  engine.compute(made, 4);
  port.answer(0, 'figures');
  engine.compute(made, 5);
  expect([engine.look().figuresRevision, port.asked.length]).toEqual([5, 1]);
});

test('StagedAnswers gives up a request when a newer one comes, and lets waiting messages in between', () => {
  const said: EngineAnswer[] = [];
  const due: (() => void)[] = [];
  let now = 0;
  const answers = new StagedAnswers({
    post: (answer) => said.push(answer),
    later: (work) => due.push(work),
    // Every look at the clock finds the stretch over.
    now: () => {
      now += 1_000;
      return now;
    },
  });
  answers.begin({ generation: 1, revision: 1, document });
  due.shift()?.();
  expect(said.map(({ generation, stage }) => [generation, stage])).toEqual([[1, 'figures']]);
  answers.begin({ generation: 2, revision: 2, document });
  let stretches = 0;
  for (let work = due.shift(); work; work = due.shift()) {
    work();
    stretches += 1;
  }
  expect(said.map(({ generation, stage }) => [generation, stage])).toEqual([
    [1, 'figures'],
    [2, 'figures'],
    [2, 'whole'],
  ]);
  expect(stretches).toBeGreaterThan(10);
});

test('EngineClient says that the engine stopped, and starts another for the next document', () => {
  const ports: Port[] = [];
  const engine = new EngineClient(() => {
    const port = new Port();
    ports.push(port);
    return port;
  });
  engine.compute(copy(), 1);
  ports[0]?.crash('out of memory');
  expect([engine.look().problem, ports[0]?.ended]).toEqual([
    'The engine stopped: out of memory. It starts again with the next change.',
    true,
  ]);
  engine.compute(copy(), 2);
  expect(ports.length).toBe(2);
});
