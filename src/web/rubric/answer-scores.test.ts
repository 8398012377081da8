import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { scoreByRubric } from '#verdict/rubric/score-by-rubric';
import { ScoringQueue } from './answer-scores.ts';
import type { ScoringAnswer, ScoringRequest } from './rubric-messages.ts';
import { rubricOfText } from './rubric-of-text.ts';
import { ScoresClient, type ScoringPort } from './scores-client.ts';

const bytes = (path: string) => readFileSync(new URL(`../../../${path}`, import.meta.url));
const gust = readAssessment({ fileName: 'assessment.yaml', bytes: bytes('examples/gust-2/assessment.yaml') });
const document = gust.assessment as Assessment;
const text = bytes('rubrics/quayside-general.yaml').toString('utf8');
const shipped = rubricOfText(text).rubric as Rubric;
const heavier = rubricOfText(text.replace('weight: 10', 'weight: 30')).rubric as Rubric;

const handed = (assessment: string, revision = 1): ScoringRequest => ({
  kind: 'document',
  assessment,
  revision,
  document,
});
const asked = (generation: number, ...rubrics: readonly Rubric[]): ScoringRequest => ({
  kind: 'rubrics',
  generation,
  rubrics,
});

test('ScoringQueue scores every document by every rubric, as the command line does, and waits without a rubric', () => {
  const queue = new ScoringQueue();
  queue.hear(handed('gust-2', 7));
  expect(queue.next()).toBeUndefined();
  queue.hear(asked(1, shipped, heavier));
  const answer = queue.next();
  const ends = [shipped, heavier].map((rubric) => {
    const { low, high } = scoreByRubric({ assessment: document, rubric });
    return [low, high];
  });
  expect([answer?.generation, answer?.assessment, answer?.revision]).toEqual([1, 'gust-2', 7]);
  expect(answer?.scores?.map(({ low, high }) => [low, high])).toEqual(ends);
  expect(answer?.scores?.some((score) => 'tree' in score)).toBe(false);
  expect(queue.next()).toBeUndefined();
});

test('ScoringQueue hears a newer rubric between two documents and scores them all by it', () => {
  const queue = new ScoringQueue();
  queue.hear(handed('a'));
  queue.hear(handed('b'));
  queue.hear(asked(1, shipped));
  expect(queue.next()?.generation).toBe(1);
  queue.hear(asked(2, heavier));
  const answers = [queue.next(), queue.next(), queue.next()];
  expect(answers.map((answer) => answer && [answer.assessment, answer.generation])).toEqual([
    ['b', 2],
    ['a', 2],
    undefined,
  ]);
});

test('ScoringQueue says in words why a record with errors has no score', () => {
  const queue = new ScoringQueue();
  const parts = { ...document.parts, lid: { within: 'nowhere' } };
  queue.hear({ kind: 'document', assessment: 'a', revision: 1, document: { ...document, parts } });
  queue.hear(asked(1, shipped));
  expect(queue.next()?.problem).toMatch(/^parts\/lid\/within: /);
});

class Port implements ScoringPort {
  said: ScoringRequest[] = [];
  private hear: (event: { readonly data: ScoringAnswer }) => void = () => undefined;
  private fail: (event: { readonly message?: string }) => void = () => undefined;

  postMessage(request: ScoringRequest): void {
    this.said.push(request);
  }

  addEventListener(type: 'message' | 'error', listener: never): void {
    if (type === 'message') this.hear = listener;
    else this.fail = listener;
  }

  terminate(): void {
    this.said = [];
  }

  answer(data: ScoringAnswer): void {
    this.hear({ data });
  }

  crash(): void {
    this.fail({ message: 'out of memory' });
  }
}

test('ScoresClient marks what is of an older rubric busy, and says why there is nothing where the engine stopped', () => {
  const port = new Port();
  const client = new ScoresClient(() => port);
  client.hand('a', 1, document);
  client.ask([shipped]);
  const head = { assessment: 'a', revision: 1 };
  port.answer({ ...head, generation: 1, scores: [] });
  expect(client.look().get('a')).toEqual({ busy: false, scores: [] });
  client.ask([heavier]);
  expect(client.look().get('a')).toEqual({ busy: true, scores: [] });
  port.answer({ ...head, generation: 1, scores: [] });
  expect(client.look().get('a')?.busy).toBe(true);
  port.crash();
  expect(client.look().get('a')).toEqual({
    busy: false,
    problem: 'The engine stopped: out of memory. Open the screen again.',
  });
  client.cannotRead('b', 'gone');
  expect(client.look().get('b')).toEqual({ busy: false, problem: 'gone' });
});
