import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const tarn5 = fileURLToPath(new URL('../../examples/tarn-5', import.meta.url));
const beck11 = fileURLToPath(new URL('../../examples/beck-11', import.meta.url));
const gust2 = fileURLToPath(new URL('../../examples/gust-2', import.meta.url));

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

  it('explains a swap finding by its runs, and its figures by a firmware with dots in it', async () => {
    const { code, out } = await runInProcess(['explain', tarn5, 'swaps/coil']);
    expect(code).toBe(0);
    expect(out).toMatch(/^coil = pairing reversible/);
    expect(out).toMatch(/pairing-latching = excluded[^\n]*\n.*\n +from swaps\/r23-coil: E0 \(Specimen C, own part/);
    const share = await runInProcess(['explain', tarn5, 'swaps/coil/5.0.1/share-of-units/low', '--json']);
    // 2 of 2 units: 0.025 to the power of a half.
    expect(JSON.parse(share.out)).toMatchObject({
      id: 'low',
      value: { scaled: Math.round(Math.sqrt(0.025) * 10_000) },
    });
  });

  it('explains a criterion of the house score at both ends, in scope or not', async () => {
    const { code, out } = await runInProcess(['explain', gust2, 'battery-price', '--depth', '1']);
    expect(code).toBe(0);
    expect(out.match(/^\S.*$/gm)).toEqual(['rubric/low/mean/battery-price:', 'rubric/high/mean/battery-price:']);
    // 69 EUR of 229 EUR lies between 1/5 (60 points) and 2/5 (none): 60 × (2/5 − 69/229) / (1/5).
    expect(out).toContain('battery-price = 6780/229');
  });

  it.each(['duties/br-no-software-lock', 'br-no-software-lock'])(
    'explains the duty %s by days, fact and source',
    async (duty) => {
      const { code, out } = await runInProcess(['explain', tarn5, duty]);
      expect(code).toBe(0);
      expect(out).toContain('facts: swaps/r44-battery');
      expect(out).toContain(
        'holds for: units placed on the market from 2027-02-18 (first placed: 2026-09-01, placing until',
      );
      expect(out).toMatch(/source: Regulation \(EU\) 2023\/1542 .*CELEX 32023R1542/);
    },
  );

  it('says of an index figure out of scope by which article, with code 1', async () => {
    const { code, out } = await runInProcess(['explain', gust2, 'best/SDD']);
    expect([code, out]).toEqual([1, expect.stringMatching(/^Out of scope: .*Article 1\)\.\n$/)]);
  });

  it('names what else can be asked for where a name is known nowhere', async () => {
    const { code, err } = await runInProcess(['explain', tarn5, 'nonsense']);
    expect(code).toBe(2);
    for (const words of ['Bases: declared', 'swaps/', 'rubric/', 'duties/']) expect(err).toContain(words);
    expect((await runInProcess(['explain', tarn5, 'duties/br-no-software-lok'])).err).toContain(
      'Did you mean "br-no-software-lock"?',
    );
    expect((await runInProcess(['explain', tarn5, 'swaps/coyl'])).err).toContain('Did you mean "swaps/coil"?');
  });

  it('says when each log entry of a step was made, by whom, and which steps earn which points', async () => {
    const { out } = await runInProcess(['explain', tarn5, 'observed/SDD/battery']);
    expect(out).toContain('from work/sessions/measured-a/entries/m01 at 0:30: pull tray catch (pin); M. R.: done');
    expect(out).toContain('up to 10 earn 3, up to 15 earn 2, more earn 1');
  });

  it('explains the letter by its thresholds, beside R', async () => {
    const { code, out } = await runInProcess(['explain', beck11, 'declared/class-rounded']);
    expect(code).toBe(0);
    expect(out).toMatch(/^class-rounded = B {2}.*\n.*B from 3\.35.*Annex II Table 4\n {2}from R: 3\.6925/);
  });

  it('says of an open score from where to where it may move', async () => {
    const { out } = await runInProcess(['explain', tarn5, 'declared', '--depth', '0']);
    expect(out.split('\n')[1]).toBe(
      '  from 2.6300 to 3.4225 by what is open; R may also be not scorable; unfasten bounds --witness names the answers',
    );
    expect((await runInProcess(['explain', tarn5, 'declared/SSP', '--depth', '0'])).out).not.toContain(
      'by what is open',
    );
  });
});
