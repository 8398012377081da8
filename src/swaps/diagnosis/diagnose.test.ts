import { describe, expect, test } from 'vitest';
import { recomputeMismatches, showFigure } from '#quantity/explained';
import { fullProtocol, type RunLine, swapRuns } from '../../../test/records/swap-runs.ts';
import type { SwapRun } from '../model/swap-run.ts';
import { diagnose, diagnoseAll, type PartDiagnosis } from './diagnose.ts';
import { swapRules } from './figures.ts';

const FIRMWARE = ['5.0.0', '5.0.1'];
const diagnosisOf = (lines: readonly RunLine[], offered = {}): PartDiagnosis =>
  diagnose('camera', swapRuns(lines), { firmware: FIRMWARE, offered: new Map([['camera', offered]]) });
const standing = ({ standing: left }: PartDiagnosis): readonly string[] => left.map(({ explanation }) => explanation);
const excluder = ({ excluded }: PartDiagnosis, explanation: string): readonly string[] | undefined =>
  excluded.find((one) => one.explanation === explanation)?.by;
const gapKinds = ({ gaps }: PartDiagnosis): readonly string[] => gaps.map(({ kind }) => kind);

const PAIRED = fullProtocol('E5');
const everywhere = (otherwise: RunLine[2]): readonly RunLine[] =>
  PAIRED.map(([fit, effect, more]): RunLine => [fit, effect, { ...more, ...otherwise }]);
const AUTHORISED: RunLine = ['A+b', 'E0', { arm: 'authorised', authorised: true }];

describe('nine cases of the bench', () => {
  test('a reversible lock: refused both ways, taken again at home, cleared by the authorised step', () => {
    const found = diagnosisOf([...PAIRED, AUTHORISED]);
    expect(found.decided).toBe('pairing-reversible');
    expect(excluder(found, 'unfixed-bug')).toEqual(['camera-13']);
    expect(found.effects.map(({ firmware, code }) => [firmware, code])).toEqual([['5.0.1', 'E5']]);
    expect(found.words).toBe(
      'In both specimens tested, on firmware 5.0.1, in both directions, reproduced twice: a foreign piece is refused while the rest of the device runs (E5). Once authorised, it works and leaves no trace (E0). Cause: pairing, reversible. The software refuses foreign pieces until authorised; the own part is taken again.',
    );
    expect(gapKinds(found)).toEqual([]);
  });

  test('a latching lock: the own part is refused as well after a passed control, until authorised', () => {
    const own: RunLine = ['A+a', 'E0', { authorised: true }];
    const found = diagnosisOf([...fullProtocol('E5', 'E5'), AUTHORISED, own]);
    expect(found.decided).toBe('pairing-latching');
    expect(found.effects[0]?.code).toBe('E7');
    expect(excluder(found, 'handling-damage')).toHaveLength(2);
  });

  test('a missing calibration: by degree, and gone after calibrating without authorisation', () => {
    const found = diagnosisOf([...fullProtocol('E4'), ['A+b', 'E0', { arm: 'calibrated', calibrated: true }]]);
    expect(found.decided).toBe('missing-calibration');
    expect(found.effects[0]?.code).toBe('E4');
  });

  test('a bug mended by an update: refused before it, taken after it', () => {
    const before = fullProtocol('E3').map(
      ([fit, effect, more]): RunLine => [fit, effect, { ...more, firmware: '5.0.0' }],
    );
    const found = diagnosisOf([...before, ['A+b', 'E0', { arm: 'firmware' }], ['B+a', 'E0', { arm: 'firmware' }]]);
    expect(found.decided).toBe('firmware-bug');
    expect(found.effects.map(({ firmware, code }) => [firmware, code])).toEqual([
      ['5.0.0', 'E3'],
      ['5.0.1', 'E0'],
    ]);
  });

  test('a bad donor: the fault goes with the piece, and is not laid to the software', () => {
    const found = diagnosisOf([
      ['A+a', 'E0'],
      ['B+b', 'E0'],
      ['A+b', 'E5'],
      ['B+a', 'E0'],
      ['A+a', 'E0'],
      ['B+b', 'E5'],
    ]);
    expect(found.decided).toBe('bad-donor');
    expect(found.setAside.map(({ run }) => run)).toEqual(['camera-3', 'camera-6']);
    expect(found.effects[0]?.code).toBe('E0');
  });

  test('a slip of the hand is caught by the refit control', () => {
    const found = diagnosisOf([
      ['A+a', 'E0', { arm: 'baseline' }],
      ['A+a', 'E5', { arm: 'refit-control' }],
      ['B+b', 'E0', { arm: 'refit-control' }],
      ['A+b', 'E5'],
      ['B+a', 'E0'],
      ['A+a', 'E5'],
    ]);
    expect(found.decided).toBe('handling-damage');
    expect(found.standing[0]?.suspicions).toEqual([{ explanation: 'handling-damage', damagedFrom: { A: 2 } }]);
  });

  test('a blocked donor: refused in two hosts, while another piece is taken', () => {
    const locked: Partial<SwapRun> = { piece: { key: 'salvaged', homeLock: 'lost', revision: 'R1' } };
    const second: Partial<SwapRun> = { piece: { key: 'salvaged-2', homeLock: 'locked', revision: 'R1' } };
    const found = diagnosisOf([
      ['A+a', 'E0'],
      ['B+b', 'E0'],
      ['A+x', 'E5', locked],
      ['B+x', 'E5', second],
      ['A+b', 'E0'],
      ['B+a', 'E0'],
    ]);
    expect(found.decided).toBe('donor-home-locked');
  });

  test('pairing against an unmended bug stays undecided where no authorised step is offered, and says so', () => {
    const found = diagnosisOf(PAIRED, { authorisation: false });
    expect(found.decided).toBeUndefined();
    expect(standing(found)).toEqual(['unfixed-bug', 'pairing-reversible']);
    expect(gapKinds(found)).toEqual(['no-authorised-step']);
    expect(found.words).toContain('Cause undecided: bug, not mended and pairing, reversible stand.');
    expect(gapKinds(diagnosisOf(PAIRED))).toEqual(['authorised-step-not-tried']);
  });

  test('nothing the matter: taken both ways', () => {
    const found = diagnosisOf(fullProtocol('E0'));
    expect(found.decided).toBe('accepted');
    expect(found.words).toBe(
      'In both specimens tested, on firmware 5.0.1, in both directions, reproduced twice: a foreign piece works and leaves no trace (E0). Nothing is the matter: foreign pieces are taken like the own one.',
    );
  });
});

describe('what is left open is named', () => {
  test.each<readonly [string, readonly RunLine[], readonly string[]]>([
    ['a refit control missing in one host', PAIRED.filter((_, place) => place !== 2), ['no-refit-control']],
    ['one direction only', PAIRED.filter(([fit]) => fit !== 'B+a'), ['one-specimen', 'one-direction']],
    ['not repeated', PAIRED.slice(0, 8), ['not-repeated']],
    ['the own part never put back', PAIRED.slice(0, 6), ['no-swap-back', 'not-repeated']],
    ['another revision', everywhere({ hostRevision: 'R2' }), ['mixed-revisions']],
    ['revision not read', everywhere({ hostRevision: undefined }), ['revision-unknown']],
    ['readiness not recorded', everywhere({ ready: undefined }), ['readiness-unknown']],
    ['an open host', everywhere({ ready: false }), ['not-ready']],
    ['soak not recorded', everywhere({ settled: undefined }), ['settling-unknown']],
    ['an older firmware alone', everywhere({ firmware: '5.0.0' }), ['firmware-not-tried']],
    ['a run hidden', [...PAIRED, ['A+b', undefined]], ['hidden']],
  ])('%s', (_, lines, expected) => {
    expect(gapKinds(diagnosisOf(lines)).filter((kind) => kind !== 'authorised-step-not-tried')).toEqual(expected);
  });

  test('an effect seen only beside the same other foreign part, unless one of the two passed beside the other', () => {
    const beside = (...foreignBeside: string[]) => ({ together: foreignBeside, foreignBeside });
    const kinds = (...lines: RunLine[]) => gapKinds(diagnosisOf(lines)).filter((kind) => kind === 'never-alone');
    expect(kinds(['A+b', 'E5', beside('port', 'lens')], ['B+a', 'E5', beside('port')])).toEqual(['never-alone']);
    expect(kinds(['A+b', 'E5', beside('port')], ['B+a', 'E5', beside('lens')])).toEqual([]);
    expect(kinds(['A+b', 'E5', beside('port')], ['B+a', 'E5'])).toEqual([]);
    expect(kinds(['A+b', 'E5', beside('port')], ['B+a', 'E0', beside('port')])).toEqual([]);
    expect(kinds(['A+b', 'E5', { together: ['port'], foreignBeside: [] }])).toEqual([]);
  });

  test('two causes at once leave no explanation standing, and that is said', () => {
    const found = diagnosisOf([...PAIRED, ['A+b', 'E0'], AUTHORISED]);
    expect(standing(found)).toEqual([]);
    expect(gapKinds(found)[0]).toBe('no-explanation');
    expect(found.words).toContain('no single explanation agrees with every run');
  });

  test('a lock that came with an update is found on the newest version alone', () => {
    const before = fullProtocol('E0').map(
      ([fit, effect, more]): RunLine => [fit, effect, { ...more, firmware: '5.0.0' }],
    );
    const after: RunLine[] = [['A+b', 'E5'], ['B+a', 'E5'], ['A+a', 'E0'], ['B+b', 'E0'], AUTHORISED];
    const found = diagnosisOf([...before, ...after]);
    expect(standing(found)).toEqual([]);
    expect(found.newestAlone).toMatchObject({ firmware: '5.0.1', decided: 'pairing-reversible' });
  });

  test('an own part refused after a foreign one is E7 only where the refit control passed', () => {
    const codes = (lines: readonly RunLine[]) => diagnosisOf(lines).effects.map(({ code }) => code);
    expect(
      codes([
        ['A+a', 'E0'],
        ['A+b', 'E5'],
        ['A+a', 'E5'],
      ]),
    ).toEqual(['E7']);
    expect(
      codes([
        ['A+b', 'E5'],
        ['A+a', 'E5'],
      ]),
    ).toEqual(['E5']);
    expect(
      codes([
        ['A+a', 'E0', { arm: 'baseline' }],
        ['A+b', 'E5'],
        ['A+a', 'E5'],
      ]),
    ).toEqual(['E5']);
  });

  test('one explanation left decides nothing while no foreign piece was seen', () => {
    const found = diagnosisOf([
      ['A+a', 'E5', { arm: 'baseline' }],
      ['A+a', 'E5', { arm: 'baseline' }],
    ]);
    expect(standing(found)).toEqual(['bad-donor']);
    expect(found.decided).toBeUndefined();
    expect(found.words).toBe('Cause undecided: bad donor stands, but no foreign piece was seen.');
  });

  test('a baseline alone decides nothing', () => {
    const found = diagnosisOf([['A+a', 'E0', { arm: 'baseline' }]]);
    expect(found.decided).toBeUndefined();
    expect(found.effects).toEqual([]);
  });
});

describe('figures', () => {
  test('two of two units, however often each fit was repeated; 2 controls against 4 foreign fits', () => {
    const [effect] = diagnosisOf(PAIRED).effects;
    expect(effect?.shareOfUnits && showFigure(effect.shareOfUnits.value)).toBe('0.1581 to 1.0000');
    expect(effect?.fisher && showFigure(effect.fisher.value)).toBe('0.0667 and 0.0667');
    for (const figure of [effect?.shareOfUnits, effect?.fisher])
      expect(figure && recomputeMismatches(figure, swapRules)).toEqual([]);
    expect(effect?.shareOfUnits?.children[0]?.children[0]?.inputs.map(({ address }) => address)).toEqual([
      'swaps/camera-5',
      'swaps/camera-6',
      'swaps/camera-9',
      'swaps/camera-10',
    ]);
  });

  test('a unit whose fits disagree widens the interval at its upper end only', () => {
    const [effect] = diagnosisOf([
      ['A+b', 'E5'],
      ['A+b', 'E0'],
      ['A+b', 'E5'],
      ['B+a', 'E0'],
    ]).effects;
    expect(effect?.shareOfUnits && showFigure(effect.shareOfUnits.value)).toBe('0.0000 to 0.9874');
  });
});

describe('runs of several parts at once', () => {
  const pooled = { together: ['camera', 'speaker', 'port'], attributed: false };
  const POOL: RunLine = ['A+b', 'E5', pooled];
  const runsOf = (lines: Readonly<Record<string, readonly RunLine[]>>) =>
    new Map(
      Object.entries(lines).map(([part, ofPart]) => [
        part,
        swapRuns(ofPart, part).map((run) => ({ ...run, together: run.together.filter((other) => other !== part) })),
      ]),
    );
  const CLEAN: readonly RunLine[] = [['A+a', 'E0'], POOL, ['A+b', 'E0'], ['B+a', 'E0']];

  test('what failed together is laid to the last part that can have failed', () => {
    const found = diagnoseAll(runsOf({ camera: [['A+a', 'E0'], POOL, ['A+a', 'E0']], speaker: CLEAN, port: CLEAN }), {
      firmware: FIRMWARE,
    });
    const camera = found.get('camera');
    expect(camera?.excluded.find(({ explanation }) => explanation === 'accepted')?.by).toEqual([
      'camera-2',
      'port-3',
      'speaker-3',
    ]);
    expect(camera?.effects[0]?.code).toBe('E5');
    expect(camera && gapKinds(camera)).not.toContain('not-told-apart');
  });

  test('nothing is read as clean because another part can have failed', () => {
    const open: readonly RunLine[] = [['A+a', 'E0'], POOL];
    const found = diagnoseAll(runsOf({ camera: open, speaker: open, port: CLEAN }), { firmware: FIRMWARE });
    for (const part of ['camera', 'speaker']) {
      expect(found.get(part)?.standing.map(({ explanation }) => explanation)).toContain('accepted');
      expect(found.get(part)?.standing.map(({ explanation }) => explanation)).toContain('pairing-reversible');
      expect(found.get(part)?.gaps.map(({ kind }) => kind)).toContain('not-told-apart');
    }
  });

  test('a part of the run that nobody recorded keeps it from being told apart', () => {
    const found = diagnoseAll(runsOf({ camera: [['A+a', 'E0'], POOL], speaker: CLEAN }), { firmware: FIRMWARE });
    expect(found.get('camera')?.standing.map(({ explanation }) => explanation)).toContain('accepted');
  });

  test('parts in another order are diagnosed alike', () => {
    const lines = { camera: [['A+a', 'E0'], POOL, ['A+a', 'E0']] as RunLine[], speaker: CLEAN, port: CLEAN };
    const turned = Object.fromEntries(Object.entries(lines).reverse());
    const [one, other] = [lines, turned].map((some) => diagnoseAll(runsOf(some), { firmware: FIRMWARE }));
    for (const part of Object.keys(lines)) expect(other?.get(part)).toEqual(one?.get(part));
  });
});
