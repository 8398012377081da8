import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const tarn5 = fileURLToPath(new URL('../../examples/tarn-5', import.meta.url));

describe('unfasten explain', () => {
  it('prints the tree with formula, clause, inputs and evidence', async () => {
    const { code, out } = await runInProcess(['explain', tarn5, 'best/SDD/battery']);
    expect(code).toBe(0);
    expect(out).toContain('battery = 2 points');
    expect(out).toContain('Annex IV point 5');
    expect(out).toMatch(/steps = 11 steps/);
    expect(out).toMatch(/by: .+; .+/);
  });

  it('names what is missing under an open figure', async () => {
    const { out } = await runInProcess(['explain', tarn5, 'best/SDD/rear-camera']);
    expect(out).toContain('rear-camera = open');
    expect(out).toMatch(/missing parts\/rear-camera\/remoteAuthorisation: .+; .+/);
  });

  it('stops at the depth asked for', async () => {
    const { out } = await runInProcess(['explain', tarn5, 'best', '--depth', '1']);
    expect(out).toMatch(/^R = /);
    expect(out).toMatch(/^ {4}SDD = /m);
    expect(out).not.toMatch(/^ {8}battery = /m);
  });

  it('answers a wrong path with code 2 and the figure that was meant', async () => {
    const { code, err } = await runInProcess(['explain', tarn5, 'best/SDD/batery']);
    expect(code).toBe(2);
    expect(err).toContain('Did you mean "best/SDD/battery"?');
  });

  it('answers a wrong basis with code 2 and the bases there are', async () => {
    const { code, err } = await runInProcess(['explain', tarn5, 'bes']);
    expect(code).toBe(2);
    expect(err).toContain('Did you mean "best"?');
    expect(err).toContain('declared, observed, best');
  });

  it('prints a figure on each basis that has it where no basis is named', async () => {
    const { code, out } = await runInProcess(['explain', tarn5, 'SDD', '--depth', '0']);
    expect(code).toBe(0);
    expect(out.match(/^\S.*$/gm)).toEqual(['declared/SDD:', 'observed/SDD:', 'best/SDD:']);
    expect(out.match(/^ {2}SDD = /gm)).toHaveLength(3);
    const { out: json } = await runInProcess(['explain', tarn5, 'SDD', '--json']);
    const paths = (JSON.parse(json) as { path: string; node: { id: string } }[]).map(({ path, node }) => [
      path,
      node.id,
    ]);
    expect(paths).toEqual([
      ['declared/SDD', 'SDD'],
      ['observed/SDD', 'SDD'],
      ['best/SDD', 'SDD'],
    ]);
  });

  it.each([
    ['battery/SDD', 'best/SDD/battery:'],
    ['SDD.battery', 'best/SDD/battery:'],
    ['parts.battery.steps', 'best/SDD/battery/battery/steps:'],
    ['parts/battery/steps', 'best/SDD/battery/battery/steps:'],
  ])('understands %s without a basis', async (figure, heading) => {
    const { code, out } = await runInProcess(['explain', tarn5, figure, '--depth', '0']);
    expect(code).toBe(0);
    expect(out.match(/^best\S*$/gm)).toEqual([heading]);
  });

  it('understands dots and a free order under a named basis too', async () => {
    const exact = await runInProcess(['explain', tarn5, 'best/SDD/battery']);
    const loose = await runInProcess(['explain', tarn5, 'best.battery.SDD']);
    expect(loose.out).toBe(exact.out);
  });

  it('answers an unknown path without a basis with the path that was meant', async () => {
    const { code, err } = await runInProcess(['explain', tarn5, 'SDD.batery']);
    expect(code).toBe(2);
    expect(err).toContain('Did you mean "SDD/battery"?');
  });

  it('says in its help that the basis may be left out', async () => {
    const { out } = await runInProcess(['explain', '--help']);
    expect(out.replaceAll(/\s+/g, ' ')).toContain('without a basis, on every basis that has it');
  });
});
