import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { runCommandLine } from '../command-line.ts';
import { planPddl } from '../referee/pddl/pddl-planner.ts';

const folder = mkdtempSync(join(tmpdir(), 'unfasten-solve-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Two ways to loosen a cover: quick with a tool that is slow to fetch, slow with the one needed later anyway. */
const problem = {
  format: 'unfasten/route-problem',
  version: 1,
  tools: [
    { id: 'driver', pickupSeconds: 20 },
    { id: 'spudger', pickupSeconds: 2 },
  ],
  actions: [
    { id: 'unscrew', tool: 'driver', seconds: 3, needs: [], gives: ['loose'] },
    { id: 'pry', tool: 'spudger', seconds: 12.5, needs: [], gives: ['loose'] },
    { id: 'lift', tool: null, seconds: 1, needs: ['loose'], gives: ['off'] },
    { id: 'unplug', tool: 'spudger', seconds: 2, needs: ['off'], gives: ['free'] },
  ],
  target: ['free'],
};

function fileOf(name: string, value: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof value === 'string' ? value : JSON.stringify(value));
  return path;
}

test('solve prints cost, proof, bound and sequence as JSON', () => {
  const { code, out, err } = runCommandLine(['solve', fileOf('problem.json', problem), '--json']);
  const { milliseconds, ...answer } = JSON.parse(out) as Record<string, unknown>;
  expect([code, err, typeof milliseconds]).toEqual([0, '', 'number']);
  expect(answer).toEqual({ cost: 17.5, proved: true, bound: 17.5, sequence: ['pry', 'lift', 'unplug'] });
});

test('solve says in words what is proved and lists the sequence with its tools', () => {
  const { code, out } = runCommandLine(['solve', fileOf('problem.json', problem)]);
  expect(code).toBe(0);
  expect(out.replace(/\(\d+ ms\)/, '(0 ms)').split('\n')).toEqual([
    '17.5 s, proved cheapest (0 ms)',
    '   1  spudger     pry',
    '   2  bare hands  lift',
    '   3  spudger     unplug',
    '',
  ]);
});

test('solve proves a problem without solution and ends with code 0', () => {
  const path = fileOf('unsolvable.json', { ...problem, target: ['nowhere'] });
  const { code, out } = runCommandLine(['solve', path, '--json']);
  expect([code, { ...JSON.parse(out), milliseconds: 0 }]).toEqual([
    0,
    { cost: null, proved: true, bound: null, sequence: [], milliseconds: 0 },
  ]);
});

test('solve names every fault of a file with its place and ends with code 1', () => {
  const path = fileOf('broken.json', { ...problem, target: 'free', tool: [] });
  const { code, out, err } = runCommandLine(['solve', path, '--json']);
  expect(code).toBe(1);
  expect(err).toContain(`${path}: target: This is no list (found "free")`);
  const { problems } = JSON.parse(out) as { problems: { path: string }[] };
  expect(problems.map((fault) => fault.path)).toEqual(['tool', 'target']);
});

test('solve calls a missing file and a wrong limit wrong use, code 2', () => {
  expect(runCommandLine(['solve', join(folder, 'gone.json')]).code).toBe(2);
  const wrong = runCommandLine(['solve', fileOf('problem.json', problem), '--seconds', 'ten']);
  expect(wrong.code).toBe(2);
  expect(wrong.err).toContain('Write a number of seconds');
});

test('solve --pddl writes two files that a planner solves at the same cost', () => {
  const target = join(folder, 'deep', 'planning');
  const { code } = runCommandLine(['solve', fileOf('problem.json', problem), '--pddl', target]);
  expect([code, existsSync(join(target, 'domain.pddl'))]).toEqual([0, true]);
  const read = (name: string) => readFileSync(join(target, name), 'utf8');
  expect(planPddl(read('domain.pddl'), read('problem.pddl')).cost).toBe(17_500);
});
