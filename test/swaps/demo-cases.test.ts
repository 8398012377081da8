import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { standingSwaps } from '#record/standing-swaps';
import type { PartDiagnosis } from '#swaps/diagnosis/diagnose';
import { EXPLANATIONS } from '#swaps/model/explanation';
import { diagnosedSwaps } from '#verdict/swaps/diagnosed-swaps';
import { swapsOf } from '#verdict/swaps/swaps-of';

const load = (name: string): Assessment => {
  const bytes = readFileSync(new URL(`../../examples/${name}/assessment.yaml`, import.meta.url));
  const { assessment } = readAssessment({ fileName: `${name}/assessment.yaml`, bytes });
  if (!assessment) throw new Error(`${name} cannot be read`);
  return assessment;
};

const records = { 'tarn-5': load('tarn-5'), 'tarn-4': load('tarn-4') } as const;
const diagnosisOf = (name: keyof typeof records, part: string): PartDiagnosis => {
  const found = diagnosedSwaps(records[name]).diagnoses.get(part);
  if (!found) throw new Error(`${name} has no runs of ${part}`);
  return found;
};
/** The record without some of its fits, by a pattern of their ids. */
const without = (name: keyof typeof records, fits: RegExp): Assessment => {
  const { swaps = {}, ...rest } = records[name];
  return { ...rest, swaps: Object.fromEntries(Object.entries(swaps).filter(([id]) => !fits.test(id))) };
};
const standing = ({ standing: list }: PartDiagnosis) => list.map(({ explanation }) => explanation);

// What each case was made to be stands in by-hand.md of its folder; a first diagnosis was looked at before the page was written.
describe('the nine cases of the examples are found as they were meant', () => {
  test.each([
    { what: 'a reversible lock', name: 'tarn-5', part: 'coil', expected: ['pairing-reversible'] },
    { what: 'a latching lock', name: 'tarn-5', part: 'light-sensor', expected: ['pairing-latching'] },
    { what: 'a calibration', name: 'tarn-4', part: 'display', expected: ['missing-calibration'] },
    { what: 'a bug fixed by an update', name: 'tarn-4', part: 'front-camera', expected: ['firmware-bug'] },
    { what: 'a bad donor', name: 'tarn-5', part: 'main-speaker', expected: ['bad-donor'] },
    { what: 'a hand slip', name: 'tarn-5', part: 'display', expected: ['handling-damage'] },
    { what: 'a blocked donor', name: 'tarn-5', part: 'front-camera', expected: ['donor-home-locked'] },
    { what: 'one undecided', name: 'tarn-5', part: 'rear-camera', expected: ['unfixed-bug', 'pairing-reversible'] },
    { what: 'one carried over, before', name: 'tarn-4', part: 'battery', expected: ['pairing-reversible'] },
    { what: 'one carried over, after', name: 'tarn-5', part: 'battery', expected: ['pairing-reversible'] },
    { what: 'nothing the matter', name: 'tarn-5', part: 'microphone', expected: ['accepted'] },
    { what: 'nothing the matter', name: 'tarn-4', part: 'charging-port', expected: ['accepted'] },
    { what: 'nothing the matter', name: 'tarn-4', part: 'rear-camera', expected: ['accepted'] },
  ] as const)('$what: $name, $part', ({ name, part, expected }) => {
    const diagnosis = diagnosisOf(name, part);
    expect(standing(diagnosis)).toEqual(expected);
    expect(diagnosis.decided).toBe(expected.length === 1 ? expected[0] : undefined);
  });

  test('there are no other parts than these', () => {
    const parts = (name: keyof typeof records) => [...diagnosedSwaps(records[name]).diagnoses.keys()];
    expect(parts('tarn-5')).toHaveLength(8);
    expect(parts('tarn-4')).toHaveLength(5);
  });

  test('every explanation stands, does not arise, or is excluded by runs that exist', () => {
    for (const name of ['tarn-5', 'tarn-4'] as const)
      for (const diagnosis of diagnosedSwaps(records[name]).diagnoses.values()) {
        const excluded = diagnosis.excluded.map(({ explanation }) => explanation);
        const told = [...standing(diagnosis), ...excluded, ...diagnosis.moot];
        expect(new Set(told)).toEqual(new Set(EXPLANATIONS));
        for (const { by } of diagnosis.excluded)
          for (const id of by) expect(Object.keys(records[name].swaps ?? {})).toContain(id);
      }
  });
});

test.each([
  { what: 'the authorised step', name: 'tarn-5', part: 'coil', fits: /^r27-coil$/, rival: 'unfixed-bug' },
  {
    what: 'the runs from the first authorised step on',
    name: 'tarn-5',
    part: 'light-sensor',
    fits: /^r(3[6-9]|4)/,
    rival: 'handling-damage',
  },
  {
    what: 'the calibrated runs',
    name: 'tarn-4',
    part: 'display',
    fits: /^r1[12]-display$/,
    rival: 'pairing-reversible',
  },
  {
    what: 'the newer firmware',
    name: 'tarn-4',
    part: 'front-camera',
    fits: /^r2[2-7]-front-camera$/,
    rival: 'unfixed-bug',
  },
  {
    what: 'the second locked unit',
    name: 'tarn-5',
    part: 'front-camera',
    fits: /^r15-front-camera$/,
    rival: 'bad-donor',
  },
] as const)('without $what of $name, $part, another explanation stands as well', ({ name, part, fits, rival }) => {
  const [before, after] = [records[name], without(name, fits)].map((record) =>
    diagnosedSwaps(record).diagnoses.get(part),
  );
  expect(before && standing(before)).not.toContain(rival);
  expect(after && standing(after)).toContain(rival);
  expect(after?.decided).toBeUndefined();
});

test('against the Tarn 4 the battery is carried over, the display fixed, the rear camera new', () => {
  const swaps = swapsOf(records['tarn-5'], { predecessor: records['tarn-4'] });
  const states = Object.fromEntries(
    swaps?.parts.map(({ part, fromPredecessor }) => [part, fromPredecessor?.state]) ?? [],
  );
  expect(states).toMatchObject({
    battery: 'carried-over',
    display: 'fixed',
    'rear-camera': 'new',
    'front-camera': 'none',
  });
});

test('each example has 25 runs or more, over two hosts and two versions at least, with evidence throughout', () => {
  for (const record of Object.values(records)) {
    const fits = Object.values(record.swaps ?? {});
    expect(new Set(fits.map(({ run }) => run)).size).toBeGreaterThanOrEqual(25);
    expect(new Set(fits.map(({ specimen }) => specimen)).size).toBeGreaterThanOrEqual(2);
    expect(new Set(fits.map(({ firmware }) => firmware)).size).toBeGreaterThanOrEqual(2);
    expect(fits.filter(({ evidence }) => !evidence?.length)).toEqual([]);
  }
});

test('the sheets of runs in the evidence say the same as the record, fit by fit', () => {
  const LINE = /^ ?(\d+) {2}(\S+) (\S+) {2}([A-Z]) {2}(\S+) +(own|of [A-Z]|\S+) +(\d\.\d\.\d) {2}(E\d|broken off)/;
  for (const [name, record] of Object.entries(records)) {
    const sheet = readFileSync(new URL(`../../examples/${name}/evidence/swap-runs.txt`, import.meta.url), 'utf8');
    const written = sheet.split('\n').flatMap((line) => {
      const [, run, day, time, host, part, fitted, firmware, effect] = LINE.exec(line) ?? [];
      return run === undefined ? [] : [[run, `${day}T${time}`, host, part, fitted, firmware, effect].join(' ')];
    });
    const fits = standingSwaps(record.swaps).filter(([, { evidence = [] }]) => evidence.includes('swap-runs'));
    const fittedOf = (donor: (typeof fits)[number][1]['donor']): string => {
      if (!donor) return 'own';
      return donor.item ?? `of ${donor.specimen?.toUpperCase()}`;
    };
    const recorded = fits.map(([, { run, on = '', specimen, part, donor, firmware, effect = 'broken off' }]) =>
      [run, on.slice(0, 16), specimen.toUpperCase(), part, fittedOf(donor), firmware, effect].join(' '),
    );
    expect(written.toSorted()).toEqual(recorded.toSorted());
    expect(written.length).toBeGreaterThan(50);
  }
});
