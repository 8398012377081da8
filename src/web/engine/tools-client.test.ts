import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { answerTools } from './answer-request.ts';
import type { ToolsAnswer, ToolsRequest } from './engine-messages.ts';
import { ToolsClient, type ToolsPort } from './tools-client.ts';

const file = new URL('../../../examples/tarn-5/assessment.yaml', import.meta.url);
const { assessment: read } = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) });
const document = read as Assessment;
const everyTool = Object.keys(document.tools ?? {});

/** A port that answers when told to. */
class Port implements ToolsPort {
  asked: ToolsRequest[] = [];
  private hear: (event: { readonly data: ToolsAnswer }) => void = () => undefined;
  private fail: (event: { readonly message?: string }) => void = () => undefined;

  postMessage(request: ToolsRequest): void {
    this.asked.push(request);
  }

  addEventListener(type: 'message' | 'error', listener: never): void {
    if (type === 'message') this.hear = listener;
    else this.fail = listener;
  }

  terminate(): void {
    this.asked = [];
  }

  answer(): void {
    const { generation = 0, revision = 0, tools = [] } = this.asked.at(-1) ?? {};
    this.hear({ data: { generation, revision, tools, parts: [] } });
  }

  crash(): void {
    this.fail({});
  }
}

test('answerTools names the tool that is wanting, and with it finds the way', () => {
  const reached = (tools: readonly string[]) =>
    answerTools({ generation: 1, revision: 4, document, tools }).parts?.find(({ part }) => part === 'display');
  expect(reached(everyTool.filter((tool) => tool !== 'ph000'))).toEqual({
    part: 'display',
    why: 'not with these tools: add ph000',
    addTools: [['ph000']],
  });
  expect(reached(everyTool)?.steps).toBeGreaterThan(0);
});

test('ToolsClient puts only the newest of the questions that came while it was busy', () => {
  const port = new Port();
  const client = new ToolsClient(() => port);
  for (const tools of [['a'], ['a', 'b'], ['b']]) client.ask({ document, revision: 1, tools });
  port.answer();
  expect([client.look().answer?.tools, client.look().busy]).toEqual([['a'], true]);
  port.answer();
  expect([client.look().answer?.tools, client.look().busy]).toEqual([['b'], false]);
});

test('ToolsClient says that the engine stopped, and starts another for the next question', () => {
  const ports: Port[] = [];
  const client = new ToolsClient(() => {
    ports.push(new Port());
    return ports.at(-1) as Port;
  });
  client.ask({ document, revision: 1, tools: [] });
  ports[0]?.crash();
  expect([client.look().answer?.problem, client.look().busy]).toEqual([
    'The engine stopped: it did not say why.',
    false,
  ]);
  client.ask({ document, revision: 2, tools: [] });
  expect(ports.length).toBe(2);
});
