// Source: Regulation (EU) 2023/1669 (CELEX 02023R1669-20260510), Annex II Table 4, Annex IV point 5, Annex IX Table 10: the
// tables as printed. The worked device X (V0 to V6, rung moves) is constructed from them and checked with exact integers;
// no published worked example of the adopted formula is known. Figures are exact, so no tolerance is used.
import { describe, expect, it } from 'vitest';
import { recomputeMismatches } from '#quantity/explained';
import { FASTENER_POINTS, stepPoints, stepsEarning, TOOL_POINTS } from '#schemes/eu-2023-1669/bands';
import { classOf, distanceToThreshold, roundedR, roundingRemark } from '#schemes/eu-2023-1669/classes';
import { evaluateIndex } from '#schemes/eu-2023-1669/evaluate-index';
import { INFORMATION_ITEMS, type IndexInput, PRIORITY_ROLES, type PriorityRole } from '#schemes/eu-2023-1669/input';
import { DEFAULT_INTERPRETATIONS } from '#schemes/eu-2023-1669/interpretations';
import { pairingSteps } from '#schemes/eu-2023-1669/readings';
import { euRules } from '#schemes/eu-2023-1669/rules';
import { checkR } from '#schemes/eu-2023-1669/surveillance';
import { PART_WEIGHTS, SCORE_WEIGHTS } from '#schemes/eu-2023-1669/weights';
import { deviceX, informationFor, known, partsOf, type SheetLine, sparesFor, updatesFor } from '../index-inputs.ts';

const evaluate = (input: IndexInput) => evaluateIndex(input, DEFAULT_INTERPRETATIONS);

const summary = (input: IndexInput) => {
  const { tree, figures } = evaluate(input);
  expect(recomputeMismatches(tree, euRules)).toEqual([]);
  const { SDD, SF, ST } = figures.scores;
  return [SDD, SF, ST, figures.R, figures.classUnrounded, figures.classRounded];
};

const withPairing = (actions: number): SheetLine => [8 + actions, 'resupplied', 'basic'];
const two = pairingSteps({ notifications: 1, authorisations: 1 }, { 'remote-pairing': 'two-actions' });
const one = pairingSteps({ notifications: 1, authorisations: 1 }, { 'remote-pairing': 'one-action' });

const allOf = (line: SheetLine): IndexInput['parts'] =>
  partsOf(Object.fromEntries(PRIORITY_ROLES.filter((role) => role !== 'hinge').map((role) => [role, line])));

const worst = deviceX(
  {},
  {
    parts: allOf([16, 'removable', 'commercial']),
    spares: sparesFor(['display']),
    updates: updatesFor(5),
    information: informationFor('not-offered', 'reasonable-fee'),
  },
);
const best = deviceX(
  {},
  {
    parts: allOf([2, 'reusable', 'none']),
    spares: sparesFor('all'),
    information: informationFor('free', 'free'),
  },
);
const { 'front-camera': _, ...withoutFrontCamera } = deviceX().parts;
const noFrontCamera = deviceX(
  {},
  {
    parts: { ...withoutFrontCamera, 'front-camera': { absent: known(true), instances: [] } },
  },
);
const foldable = deviceX(
  { display: [16, 'resupplied', 'with-spare'], hinge: [19, 'removable', 'commercial'] },
  { foldable: known(true), spares: sparesFor(['display', 'battery']) },
);

describe('constructed device X under Annex IV point 5', () => {
  it.each([
    ['V0 as printed', deviceX(), ['2.60', '3.50', '3.40', '3.3350', 'C', 'C']],
    [
      'V0 with the battery in 7 steps',
      deviceX({ battery: [7, 'resupplied', 'basic'] }),
      ['2.60', '3.50', '3.40', '3.3350', 'C', 'C'],
    ],
    [
      'V1 notification and authorisation as two actions',
      deviceX({ battery: withPairing(two) }),
      ['2.00', '3.50', '3.40', '3.1850', 'C', 'C'],
    ],
    ['V2 as one action', deviceX({ battery: withPairing(one) }), ['2.30', '3.50', '3.40', '3.2600', 'C', 'C']],
    [
      'V3 rear camera in 5 steps',
      deviceX({ 'rear-camera': [5, 'reusable', 'basic'] }),
      ['2.65', '3.50', '3.40', '3.3475', 'C', 'B'],
    ],
    ['V4 no front camera', noFrontCamera, ['2.70', '3.50', '3.45', '3.3675', 'B', 'B']],
    ['V5 foldable', foldable, ['2.09', '3.06', '2.97', '2.9270', 'C', 'C']],
    ['V6 all points 1', worst, ['1.00', '1.00', '1.00', '1.0000', 'E', 'E']],
    ['V6 all points 5', best, ['5.00', '5.00', '5.00', '5.0000', 'A', 'A']],
  ])('gives the scores of %s', (_name, input, expected) => {
    expect(summary(input)).toEqual(expected);
  });

  it('gives SSP 3, SSU 5 and SRI 3 for V0', () => {
    const { SSP, SSU, SRI } = evaluate(deviceX()).figures.scores;
    expect([SSP, SSU, SRI]).toEqual(['3.00', '5.00', '3.00']);
  });

  it('rounds V0 to 3.34 half-up and half-even, to 3.33 when cut', () => {
    expect([roundedR(33_350), roundedR(33_350, 'half-even'), roundedR(33_350, 'cut')]).toEqual([334, 334, 333]);
  });

  it('lists an absent part with 5, 5, 5 and no steps', () => {
    expect(evaluate(noFrontCamera).figures.parts['front-camera']).toEqual({ steps: null, DD: 5, F: 5, T: 5 });
  });

  it('lists nine roles, and the hinge for a foldable', () => {
    expect(Object.keys(evaluate(deviceX()).figures.parts)).toEqual(PRIORITY_ROLES.filter((role) => role !== 'hinge'));
    expect(Object.keys(evaluate(foldable).figures.parts)).toEqual([...PRIORITY_ROLES]);
  });
});

describe('Annex IV point 5, tables', () => {
  it.each([
    [0, 5],
    [1, 5],
    [2, 5],
    [3, 4],
    [5, 4],
    [6, 3],
    [10, 3],
    [11, 2],
    [15, 2],
    [16, 1],
    [17, 1],
    [10_000, 1],
  ])('%i steps earn %i points (table of DDi)', (steps, points) => {
    expect(stepPoints(steps)).toBe(points);
    const band = stepsEarning(points);
    expect(band && band.least <= steps && steps <= band.greatest).toBe(true);
  });

  it('gives fastener and tool classes their points (tables of Fi and Ti)', () => {
    expect(FASTENER_POINTS).toEqual({ reusable: 5, resupplied: 3, removable: 1 });
    expect(TOOL_POINTS).toEqual({ none: 5, basic: 4, 'with-spare': 3, 'with-product': 2, commercial: 1 });
  });

  it('has weights that sum to one', () => {
    const sum = (weights: Readonly<Record<string, number>>) => Object.values(weights).reduce((a, b) => a + b, 0);
    expect([sum(SCORE_WEIGHTS), sum(PART_WEIGHTS['non-foldable']), sum(PART_WEIGHTS.foldable)]).toEqual([
      100, 100, 100,
    ]);
  });

  const ladder = (more: Partial<IndexInput>, score: 'SSP' | 'SSU' | 'SRI') =>
    evaluate(deviceX({}, more)).figures.scores[score];

  const cameras: readonly PriorityRole[] = ['front-camera', 'rear-camera'];
  it.each<[string, readonly PriorityRole[] | 'all', string | null]>([
    ['all priority parts', 'all', '5.00'],
    ['display, battery, back cover, cameras', ['display', 'battery', 'back-cover', ...cameras], '4.00'],
    ['display, battery, back cover', ['display', 'battery', 'back-cover'], '3.00'],
    ['display, battery', ['display', 'battery'], '2.00'],
    ['display', ['display'], '1.00'],
    ['one camera only, which caps', ['display', 'battery', 'back-cover', 'front-camera', 'button', 'speaker'], '3.00'],
    ['battery but no display, which has no points', ['battery', 'back-cover'], null],
  ])('SSP for end users who get %s', (_name, endUsers, expected) => {
    expect(ladder({ spares: sparesFor(endUsers) }, 'SSP')).toBe(expected);
  });

  it.each([
    [8, '5.00'],
    [7, '5.00'],
    [6.9999, '3.00'],
    [6, '3.00'],
    [5.5, '1.00'],
    [5, '1.00'],
    [4.9999, null],
    [0, null],
  ])('SSU for %f years', (years, expected) => {
    expect(ladder({ updates: updatesFor(years) }, 'SSU')).toBe(expected);
    expect(ladder({ updates: { ...updatesFor(9), corrective: known(years) } }, 'SSU')).toBe(expected);
  });

  const withBoard = (access: 'free' | 'reasonable-fee' | 'not-offered'): IndexInput['information'] => ({
    ...informationFor('free', 'free'),
    'board-diagrams': { endUsers: known('not-offered'), professionals: known(access) },
  });
  it.each<[string, IndexInput['information'], string | null]>([
    ['everything free', informationFor('free', 'free'), '5.00'],
    ['all public but board diagrams, these free to professionals', withBoard('free'), '5.00'],
    ['all public, board diagrams at a fee', withBoard('reasonable-fee'), '1.00'],
    ['all public, no board diagrams', withBoard('not-offered'), null],
    ['professionals free', informationFor('not-offered', 'free'), '3.00'],
    ['public at a fee, professionals free', informationFor('reasonable-fee', 'free'), '3.00'],
    ['professionals at a reasonable fee', informationFor('not-offered', 'reasonable-fee'), '1.00'],
    ['professionals at a fee that deters', informationFor('not-offered', 'deterring-fee'), null],
    ['nothing', informationFor('not-offered', 'not-offered'), null],
  ])('SRI for %s', (_name, information, expected) => {
    expect(ladder({ information }, 'SRI')).toBe(expected);
  });

  it('asks for each of the eleven items', () => {
    expect(INFORMATION_ITEMS.length).toBe(11);
    for (const item of INFORMATION_ITEMS) {
      const information = {
        ...informationFor('free', 'free'),
        [item]: { endUsers: known('not-offered'), professionals: known('not-offered') },
      };
      expect(ladder({ information: information as IndexInput['information'] }, 'SRI')).toBe(null);
    }
  });
});

describe('Annex II Table 4', () => {
  it.each([
    [50_000, 'A'],
    [40_000, 'A'],
    [39_995, 'B'],
    [33_500, 'B'],
    [33_495, 'C'],
    [25_500, 'C'],
    [25_495, 'D'],
    [17_500, 'D'],
    [17_495, 'E'],
    [10_000, 'E'],
    [9_999, undefined],
  ])('R of %i ten-thousandths earns %s', (r, letter) => {
    expect(classOf(r)).toBe(letter);
  });

  it.each([39_950, 39_975, 33_450, 33_475, 25_450, 25_475, 17_450, 17_475])(
    'R of %i ten-thousandths changes class by rounding half-up first',
    (r) => {
      expect(classOf(roundedR(r) * 100)).not.toBe(classOf(r));
      expect(classOf(roundedR(r, 'cut') * 100)).toBe(classOf(r));
    },
  );

  it('remarks on rounding where it changes the printed figure or the letter, and nowhere else', () => {
    expect(roundingRemark(33_475)).toBe(
      'R 3.3475 is C as computed; rounded half-up 3.35 (B), half-even 3.35 (B), cut 3.34 (C)',
    );
    expect(roundingRemark(33_450)).toBe(
      'R 3.3450 is C as computed; rounded half-up 3.35 (B), half-even 3.34 (C), cut 3.34 (C)',
    );
    expect(roundingRemark(33_325)).toBe(undefined);
  });

  it('names the nearest threshold, the signed distance and the letter beyond', () => {
    expect(distanceToThreshold(33_350)).toEqual({
      scaled: -150,
      distance: '-0.0150',
      threshold: '3.3500',
      letterBeyond: 'B',
    });
    expect(distanceToThreshold(33_500)).toMatchObject({ distance: '+0.0000', threshold: '3.3500', letterBeyond: 'C' });
    expect(distanceToThreshold(50_000)).toMatchObject({ distance: '+1.0000', threshold: '4.0000', letterBeyond: 'B' });
    expect(distanceToThreshold(10_000)).toMatchObject({ distance: '-0.7500', threshold: '1.7500', letterBeyond: 'D' });
    expect(distanceToThreshold(36_750)).toMatchObject({ threshold: '3.3500', letterBeyond: 'C' });
  });
});

describe('how much one rung moves R (non-foldable)', () => {
  const r = (input: IndexInput): number => Math.round(Number(evaluate(input).figures.R) * 10_000);
  const base: SheetLine = [8, 'removable', 'commercial'];
  const flat = (change: Partial<Record<PriorityRole, SheetLine>>) =>
    r(
      deviceX({
        ...Object.fromEntries(PRIORITY_ROLES.filter((role) => role !== 'hinge').map((role) => [role, base])),
        ...change,
      }),
    );

  it.each<[PriorityRole, readonly number[]]>([
    ['battery', [750, 900, 450]],
    ['display', [750, 900, 450]],
    ['back-cover', [250, 300, 150]],
    ['speaker', [125, 150, 75]],
    ['front-camera', [125, 150, 75]],
    ['rear-camera', [125, 150, 75]],
    ['charging-port', [125, 150, 75]],
    ['button', [125, 150, 75]],
    ['microphone', [125, 150, 75]],
  ])('%s: one band, one fastener rung and one tool rung move R by %j ten-thousandths', (role, moves) => {
    const changed: readonly SheetLine[] = [
      [5, 'removable', 'commercial'],
      [8, 'resupplied', 'commercial'],
      [8, 'removable', 'with-product'],
    ];
    expect(changed.map((line) => flat({ [role]: line }) - flat({}))).toEqual(moves);
  });

  it('SSP 0.15, SSU 0.30, SRI 0.30 a rung', () => {
    expect(r(deviceX()) - r(deviceX({}, { spares: sparesFor(['display', 'battery']) }))).toBe(1500);
    expect(r(deviceX()) - r(deviceX({}, { updates: updatesFor(6) }))).toBe(3000);
    expect(r(deviceX({}, { information: informationFor('free', 'free') })) - r(deviceX())).toBe(3000);
  });
});

describe('Annex IX Table 10, on V0 declared at 3.34', () => {
  it.each([
    ['at 3.2064, the least', 32_064, true],
    ['just below', 32_063, false],
    ['V2, 3.26', 32_600, true],
    ['V1, 3.185', 31_850, false],
  ])('%s', (_name, determined, passes) => {
    expect(checkR(334, determined)).toMatchObject({ passes, least: '3.2064' });
  });
});
