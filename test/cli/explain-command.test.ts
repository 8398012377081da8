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
    expect(err).toContain('Did you mean "battery"?');
  });

  it('answers a wrong basis with code 2 and the bases there are', async () => {
    const { code, err } = await runInProcess(['explain', tarn5, 'bes']);
    expect(code).toBe(2);
    expect(err).toContain('Did you mean "best"?');
    expect(err).toContain('declared, observed, best');
  });
});
