import { describe, expect, it } from 'vitest';
import { type Changes, CLEAN_SWAPS, fullRecord, judged } from './full-record.ts';

const finding = (row: string, what: Parameters<typeof judged>[1] = {}) => {
  const found = judged(fullRecord('smartphone'), { ...what, rows: [row] }).get(row);
  if (!found) throw new RangeError(row);
  return found;
};

describe('swap findings', () => {
  const with_ = (over: object) => ({
    swaps: [
      ...CLEAN_SWAPS,
      {
        part: 'button',
        effect: 'E3' as const,
        cause: 'pairing' as const,
        on: '2027-06-01',
        evidence: ['swap-sheet'],
        ...over,
      },
    ],
  });

  it('without any finding every row on software is not shown', () => {
    for (const row of [
      'or-prevent',
      'co-alerts',
      'wa-reduce',
      'br-no-software-lock',
      'br-replaceable',
      'r2r-technique',
    ])
      expect([row, finding(row, { swaps: [] }).state]).toEqual([row, 'not-shown']);
  });

  it('one part not swapped leaves it not shown and is named; one effect seen is not met all the same', () => {
    const some = CLEAN_SWAPS.filter(({ part }) => part !== 'speaker');
    expect(finding('or-prevent', { swaps: some }).observed).toContain('no swap finding: speaker');
    const seen = {
      part: 'battery',
      effect: 'E5' as const,
      cause: 'pairing' as const,
      on: '2027-06-01',
      firmware: '5.0.1',
      evidence: ['clip'],
    };
    const broken = finding('or-prevent', { swaps: [seen] });
    expect([broken.state, broken.evidence]).toEqual(['not-met', ['clip']]);
    expect(broken.observed).toBe('battery: E5, the part is refused, on firmware 5.0.1');
  });

  it('a genuine battery that is taken says nothing of a compatible one; one that is refused does', () => {
    const genuine = (effect: 'E0' | 'E5') => ({
      swaps: [
        { part: 'battery', effect, cause: 'pairing' as const, kinds: ['used-genuine'], on: '2027-06-01', evidence: [] },
      ],
    });
    for (const row of ['br-replaceable', 'br-no-software-lock']) {
      const taken = finding(row, genuine('E0'));
      expect([row, taken.state, finding(row, genuine('E5')).state]).toEqual([row, 'not-shown', 'not-met']);
      expect(taken.observed).toContain('no swap finding with a compatible battery');
    }
    expect(finding('br-replaceable', { changes: { 'product/facts/compatible-battery-safe': undefined } }).state).toBe(
      'not-shown',
    );
    expect(finding('br-replaceable').state).toBe('met');
  });

  it('a notice is a breach only where it is judged to mislead', () => {
    expect(finding('or-alerts', with_({})).state).toBe('not-shown');
    expect(finding('or-alerts', with_({ misleading: true })).state).toBe('not-met');
    expect(finding('or-alerts', with_({ misleading: false })).state).toBe('met');
    expect(finding('or-alerts', with_({ effect: 'E2', misleading: true })).state).toBe('met');
    expect(finding('co-alerts', with_({ effect: 'E2', misleading: true })).state).toBe('not-met');
    expect(finding('co-alerts', with_({ effect: 'E1', misleading: true })).state).toBe('met');
  });

  it('what is not told from a bug is open where the law speaks of pairing, and not met where it speaks of software', () => {
    const what = with_({ effect: 'E5', cause: 'software', standing: ['pairing', 'a bug'], runs: ['w7'] });
    const states = ['or-prevent', 'co-prevent', 'r2r-technique'].map((row) => finding(row, what).state);
    expect(states).toEqual(['not-shown', 'not-shown', 'not-met']);
    expect(finding('or-prevent', what).observed).toContain('what does it is open: pairing or a bug');
    expect(finding('r2r-technique', what).facts).toContain('swaps/w7');
  });

  it('an effect whose cause is open leaves every row open, even where no trace was seen', () => {
    for (const effect of ['E0', 'E5'])
      for (const row of ['or-prevent', 'or-reduce', 'r2r-technique'])
        expect([row, finding(row, with_({ effect, cause: 'open' })).state]).toEqual([row, 'not-shown']);
  });

  it('a calibration that needs no authorisation is no pairing; whether it hinders is left open', () => {
    const what = with_({ effect: 'E4', cause: 'calibration' });
    expect(['or-reduce', 'co-reduce', 'wa-reduce'].map((row) => finding(row, what).state)).toEqual([
      'met',
      'met',
      'met',
    ]);
    expect(finding('r2r-technique', what).state).toBe('not-shown');
  });

  it('a part that its swaps show paired is serialised, an accepted one is not, a notice alone shows neither', () => {
    const parts = [...CLEAN_SWAPS.map(({ part }) => part), 'tray'];
    const unsaid: Changes = Object.fromEntries(parts.map((part) => [`parts/${part}/serialised`, undefined]));
    const others = CLEAN_SWAPS.filter(({ part }) => part !== 'display');
    const tray = { part: 'tray', effect: 'E0' as const, cause: 'none' as const, evidence: [] };
    const state = (effect: 'E0' | 'E2' | 'E5', cause: 'none' | 'pairing' | 'open'): string =>
      finding('ed-serialised', {
        changes: unsaid,
        swaps: [...others, tray, { part: 'display', effect, cause, on: '2027-06-01', evidence: [] }],
      }).state;
    expect(state('E5', 'pairing')).toBe('met');
    expect(state('E0', 'none')).toBe('does-not-apply');
    expect([state('E2', 'pairing'), state('E5', 'open')]).toEqual(['not-shown', 'not-shown']);
  });

  it('a part that its swaps show paired, and the record calls not serialised, leaves it open', () => {
    const swaps = [{ part: 'display', effect: 'E5' as const, cause: 'pairing' as const, evidence: [] }];
    const denied: Changes = { 'parts/display/serialised': false };
    expect(finding('ed-serialised', { changes: denied, swaps }).observed).toContain('contradict each other');
  });

  it('a part that only authenticates a person is exempt in Colorado and Washington, not in Oregon', () => {
    const what = { ...with_({ effect: 'E5' }), changes: { 'product/biometricParts': ['button'] } };
    expect(['co-prevent', 'wa-prevent', 'or-prevent'].map((row) => finding(row, what).state)).toEqual([
      'met',
      'met',
      'not-met',
    ]);
    const unknown = { ...with_({ effect: 'E5' }), changes: { 'product/biometricParts': undefined } };
    expect(finding('co-prevent', unknown).missing.map(({ address }) => address)).toEqual(['product/biometricParts']);
  });
});
