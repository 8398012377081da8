// Runs in this process, so that the sources are tested, not a bundle.
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { DutyFinding } from '#schemes/duties/duty-finding';
import { runInProcess } from './run-in-process.ts';

const example = (name: string): string => fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));
const statesOf = (duties: readonly DutyFinding[]) => Object.fromEntries(duties.map(({ id, state }) => [id, state]));

describe('unfasten duties', () => {
  it('tarn-5 has a row met, one not met and one that does not apply in each law of the Union, and rows not shown', async () => {
    const { code, out } = await runInProcess(['duties', example('tarn-5'), '--jurisdiction', 'eu', '--json']);
    const { heading, duties } = JSON.parse(out) as { heading: string; duties: DutyFinding[] };
    expect([code, heading.startsWith('Observations from the record, not legal advice.')]).toEqual([0, true]);
    for (const [law, ...shown] of [
      ['Regulation (EU) 2023/1670', 'not-shown'],
      ['Regulation (EU) 2023/1542', 'not-shown'],
      ['Directive (EU) 2024/1799'],
      ['Directive 2014/53/EU', 'not-shown'],
    ]) {
      const states = new Set(duties.filter((duty) => duty.law === law).map(({ state }) => state));
      expect([law, [...states].sort()]).toEqual([law, ['does-not-apply', 'met', 'not-met', ...shown]]);
    }
    expect(duties.map(({ jurisdiction }) => jurisdiction)).not.toContain('US-OR');
    expect(statesOf(duties)).toMatchObject({
      'ed-parts-professionals': 'met',
      'ed-parts-end-users': 'not-met',
      'ed-disassembly-professional': 'met',
      'ed-battery-route-i': 'not-met',
      'ed-battery-route-ii': 'met',
      'ed-battery-either': 'met',
      'ed-serialised': 'not-shown',
      'br-removable': 'not-met',
      'br-no-software-lock': 'not-shown',
      'br-replaceable': 'not-shown',
      'r2r-technique': 'not-met',
    });
    const heat = duties.find(({ id }) => id === 'br-removable');
    expect(heat?.observed).toContain('heat at the rear edge');
    const technique = duties.find(({ id }) => id === 'r2r-technique');
    expect(technique?.observed).toContain('Charging coil: E5, the part is refused, on firmware 5.1.0');
    expect(technique?.facts).toContain('swaps/r44-coil');
    const tray = duties.find(({ id }) => id === 'ed-parts-end-users');
    expect([tray?.observed, tray?.evidence]).toEqual([
      'Card tray refused to end users (refused, NL, 2026-10-05)',
      ['maker-answers'],
    ]);
  });

  it('in text a row says its state, its law’s clause, whether the text was read, and what is missing', async () => {
    const { code, out } = await runInProcess(['duties', example('gust-2')]);
    expect(code).toBe(0);
    expect(out).toContain('EU: Directive 2014/53/EU');
    expect(out).toMatch(
      /not shown +Means of repair \(Minn\. Stat\. 325E\.72; text not read: from memory, an editable default\) \[mn-means\]/,
    );
    expect(out).toContain('missing: day the model was first sold or used in US-MN (product/markets/US-MN/firstSold)');
    expect(out).toContain('observed: category cordless vacuum; the row is about: smartphone');
  });

  it('a jurisdiction that is not in the table is refused with those that are', async () => {
    const { code, err } = await runInProcess(['duties', example('gust-2'), '--jurisdiction', 'US-TX']);
    expect(code).toBe(2);
    expect(err).toContain('EU, US-CA, US-CO, US-MN, US-NY, US-OR, US-WA');
  });
});
