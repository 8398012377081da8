import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { run } from '#cli/run';
import { collectingStreams } from '../collecting-streams.ts';

const file = (name: string): string => fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));

/** What does `unfasten index FOLDER --json` answer? Run in this process, so that the sources are tested, not a bundle. */
const indexOf = async (name: string): Promise<{ code: number; json: string }> => {
  const collected = collectingStreams();
  const argv = ['index', file(name), '--json'];
  const code = await run({ argv, version: '0.0.0', streams: collected.streams, now: () => 0 });
  return { code, json: collected.out() };
};

const EXIT_CODES = { 'tarn-5': 0, 'tarn-4': 0, 'beck-11': 0, 'gust-2': 1, 'quick-log': 0 } as const;

// The figures were gone through by hand: see by-hand.md in tarn-5, tarn-4 and beck-11.
describe('unfasten index --json', () => {
  it.each(Object.entries(EXIT_CODES))(
    '%s gives the expected figures, byte for byte, and ends with code %i',
    async (name, code) => {
      const golden = file(`${name}/expected/index.json`);
      const answer = await indexOf(name);
      expect(answer.code).toBe(code);
      const expected = existsSync(golden) ? readFileSync(golden, 'utf8') : '';
      if (answer.json !== expected) writeFileSync(file(`${name}/expected/index-changed.json`), answer.json);
      expect(answer.json).toBe(expected);
    },
  );
});

type Form = { R: string | null; parts: Record<string, { steps: number | null; DD: number | null }> };
const golden = (name: string): Record<string, Form & { low?: Form; high?: Form }> =>
  JSON.parse(readFileSync(file(`${name}/expected/index.json`), 'utf8')).bases;

// Counted on paper before the program ran (by-hand.md); the golden has to say the same.
describe('the goldens against the count on paper', () => {
  const steps = (form: Form | undefined): Record<string, number | null> =>
    Object.fromEntries(Object.entries(form?.parts ?? {}).map(([role, { steps: count }]) => [role, count]));
  const others = { 'front-camera': 8, button: 8, microphone: 9, 'charging-port': 10, 'back-cover': 3 };

  it('tarn-5, best found: battery 11 as shown and 10 if the coil may stay in', () => {
    const best = golden('tarn-5').best;
    expect(steps(best)).toMatchObject({ ...others, battery: 11, display: 11, speaker: 10, 'rear-camera': null });
    expect(steps(best?.high)).toMatchObject({ ...others, battery: 10, display: 11, 'rear-camera': 8 });
    expect(steps(best?.low)).toMatchObject({ battery: 11, 'rear-camera': 13 });
  });

  it('tarn-5, declared: battery 10, display 12, and R 3.4225 where every open fact turns out well', () => {
    const declared = golden('tarn-5').declared;
    expect(steps(declared)).toMatchObject({ ...others, battery: 10, display: 12, speaker: 10 });
    expect(declared?.high?.R).toBe('3.4225');
  });

  it('tarn-5, observed on specimen A: battery 14, display 13, port 12, speaker 10', () => {
    expect(steps(golden('tarn-5').observed)).toMatchObject({
      battery: 14,
      display: 13,
      'back-cover': 3,
      'front-camera': 9,
      'charging-port': 12,
      button: 10,
      microphone: 10,
      speaker: 10,
    });
  });

  it('tarn-4 is settled: best found 3.9525, observed 3.7925', () => {
    const bases = golden('tarn-4');
    expect([bases.best?.R, bases.observed?.R]).toEqual(['3.9525', '3.7925']);
    expect([bases.best?.low, bases.observed?.low]).toEqual([undefined, undefined]);
  });

  it('beck-11: the battery took nine steps as done, which no SDD of 4.45 allows', () => {
    const { observed, best } = golden('beck-11');
    expect(observed?.high?.parts.battery?.steps).toBe(9);
    expect(best?.high?.parts.battery?.steps).toBe(8);
  });
});
