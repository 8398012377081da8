// Runs in this process, so that the sources are tested, not a bundle.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import type { SwapsVerdict } from '#verdict/swaps/swaps-verdict';
import { authorisedStep, crossed, fitsOf, swapRecord } from '../fixtures/verdict-swaps.ts';
import { runInProcess } from './run-in-process.ts';

const example = (name: string): string => fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));

const root = mkdtempSync(join(tmpdir(), 'unfasten-swaps-'));
afterAll(() => rmSync(root, { recursive: true }));

const STEP = { open: 300, fit: 60, check: 60, authorisation: true, authorise: 120, calibration: true, calibrate: 60 };
const BENCH = { minutes: 120, start: 60, soak: 60, close: 120, firmware: ['5.0.1', '5.1.0'], hosts: ['a', 'b'] };

/** A bench with one part and two specimens, after these fits. */
const benchWith = (name: string, fits: Readonly<Record<string, unknown>>, bench: object = {}): string => {
  const file = join(root, `${name}.json`);
  const swapBench = { ...BENCH, parts: { camera: STEP }, ...bench };
  writeFileSync(file, JSON.stringify(swapRecord(fits, { swapBench })));
  return file;
};

describe('unfasten swaps diagnose', () => {
  it('tarn-5 shows its nine cases, each explanation with the runs that exclude it', async () => {
    const { code, out } = await runInProcess(['swaps', 'diagnose', example('tarn-5'), '--json']);
    const { parts, predecessor } = JSON.parse(out) as SwapsVerdict;
    expect([code, predecessor]).toEqual([0, 'Tarn 4']);
    expect(Object.fromEntries(parts.map(({ part, decided }) => [part, decided?.explanation ?? 'undecided']))).toEqual({
      battery: 'pairing-reversible',
      coil: 'pairing-reversible',
      'light-sensor': 'pairing-latching',
      'main-speaker': 'bad-donor',
      'front-camera': 'donor-home-locked',
      display: 'handling-damage',
      'rear-camera': 'undecided',
      microphone: 'accepted',
    });
    for (const { excluded } of parts) for (const { by } of excluded) expect(by.length).toBeGreaterThan(0);
    const battery = parts.find(({ part }) => part === 'battery');
    expect(battery?.fromPredecessor?.state).toBe('carried-over');
  });

  it('in text a part has its words, what stands, what is excluded by which runs, figures and what is left open', async () => {
    const { code, out } = await runInProcess(['swaps', 'diagnose', example('tarn-5'), '--part', 'rear-camera']);
    expect(code).toBe(0);
    expect(out).toContain('Cause undecided: bug, not mended and pairing, reversible stand.');
    expect(out).toMatch(/excluded:\n {4}accepted, by swaps\//);
    expect(out).toContain('No authorised step is offered at this bench');
    expect(out).toContain('refit control against foreign fits, firmware 5.0.1:');
    expect(out).not.toContain('Light and proximity sensor');
  });

  it('a part written wrongly is answered with the one that was probably meant, at the option that named it', async () => {
    const wrongly = async (...argv: readonly string[]) => {
      const { code, err } = await runInProcess(['swaps', argv[0] ?? '', example('tarn-5'), ...argv.slice(1)]);
      return `${code} ${err}`;
    };
    expect(await wrongly('diagnose', '--part', 'batery')).toMatch(/^2 --part: .*Did you mean "battery"\?/);
    expect(await wrongly('next', '--part', 'batery')).toMatch(/^2 --part: .*Did you mean "battery"\?/);
    expect(await wrongly('simulate', '--truth', 'batery=accepted')).toMatch(/^2 --truth: .*Did you mean "battery"\?/);
  });

  it('a truth is refused that names no explanation, or more than one', async () => {
    const truth = async (text: string) => {
      const { code, err } = await runInProcess(['swaps', 'simulate', example('tarn-5'), '--truth', text]);
      return `${code} ${err}`;
    };
    expect(await truth('battery=pairing-latchin')).toContain('Did you mean "battery=pairing-latching"?');
    expect(await truth('battery=accepted=bad-donor')).toMatch(/^2 .*is invalid/);
  });

  it('a part that was not swapped is refused with those that were; a record without swaps says so', async () => {
    const { code, err } = await runInProcess(['swaps', 'diagnose', example('tarn-4'), '--part', 'hinge']);
    expect([code, err.includes('charging-port')]).toEqual([2, true]);
    expect((await runInProcess(['swaps', 'diagnose', example('gust-2')])).out).toContain('no swap is on record');
  });
});

describe('unfasten swaps plan and next', () => {
  it('plans from the baseline on, says whether that is proved best, and where the minutes run out', async () => {
    const { code, out } = await runInProcess([
      'swaps',
      'plan',
      benchWith('fresh', {}),
      '--seed',
      '3',
      '--minutes',
      '10',
    ]);
    expect(code).toBe(0);
    expect(out).toMatch(/Expected \d+ ± \d+ bench minutes/);
    expect(out).toMatch(/roved best: /);
    expect(out).toContain('1  Specimen A, on firmware 5.0.1');
    expect(out).toContain('Rear camera: own part, left in place (baseline)');
    expect(out).toMatch(/The minutes run out after run \d+; then still open: Rear camera\./);
  });

  it('after a refusal in both directions the next run is one that tells a lock from a bug; after it nothing is open', async () => {
    const next = async (name: string, fits: Readonly<Record<string, unknown>>) =>
      (await runInProcess(['swaps', 'next', benchWith(name, fits)])).out;
    const refused = await next('refused', fitsOf('camera', crossed('E5')));
    expect(refused).toMatch(/^Next run: /);
    expect(refused).toContain('authorised (authorised step)');
    const cleared = await next('cleared', fitsOf('camera', [...crossed('E5'), authorisedStep('authorisation')]));
    expect(cleared).toBe('No further run: every part is decided.\n');
  });

  it('a record without a bench for swaps, and a part that the bench does not have, are refused with what to do', async () => {
    const none = await runInProcess(['swaps', 'plan', example('gust-2')]);
    expect([none.code, none.err.includes('swapBench')]).toEqual([1, true]);
    const unknown = await runInProcess(['swaps', 'next', example('tarn-5'), '--part', 'hinge']);
    expect([unknown.code, unknown.err.includes('light-sensor')]).toEqual([2, true]);
  });
});

describe('unfasten swaps simulate', () => {
  const simulate = async (...argv: readonly string[]) =>
    await runInProcess(['swaps', 'simulate', benchWith('simulated', {}), ...argv]);

  it('plays the plan run by run and says whether the diagnosis named the truth', async () => {
    const { code, out } = await simulate('--truth', 'camera=pairing-latching', '--seed', '7');
    expect(code).toBe(0);
    expect(out).toContain('Rear camera: truth named: pairing, latching');
    expect(out).toContain('(cross): E');
    expect(out).toMatch(/\d+ runs, \d+ bench minutes\. Truth named: 1;/);
  });

  it('an explanation that there is not is refused with those that there are', async () => {
    const { code, err } = await simulate('--truth', 'camera=magic');
    expect([code, err.includes('pairing-latching')]).toEqual([2, true]);
  });
});
