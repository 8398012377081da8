import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Explained, type FigureValue, findExplained, recomputeMismatches, showFigure } from '#quantity/explained';
import { productDraw, readingsDraw, seenInput, trueInput } from '../../../test/index-arbitraries.ts';
import {
  belowScale,
  deviceX,
  informationFor,
  known,
  open,
  partFinding,
  sparesFor,
} from '../../../test/index-inputs.ts';
import { evaluateIndex } from './evaluate-index.ts';
import type { IndexInput, PartFinding, PriorityRole } from './input.ts';
import { DEFAULT_INTERPRETATIONS } from './interpretations.ts';
import { euRules } from './rules.ts';

const RUNS = process.env.UNFASTEN_DEEP ? 2000 : 200;

const evaluate = (input: IndexInput) => evaluateIndex(input, DEFAULT_INTERPRETATIONS);

const withPart = (role: PriorityRole, ...instances: readonly PartFinding[]): IndexInput => {
  const base = deviceX();
  return { ...base, parts: { ...base.parts, [role]: { absent: known(false), instances } } };
};

const nodesOf = (node: Explained): readonly Explained[] => [node, ...node.children.flatMap(nodesOf)];

describe('the tree of R', () => {
  it('follows from its children and inputs, open and below the scale included', () => {
    fc.assert(
      fc.property(productDraw, readingsDraw, (drawn, readings) => {
        const { tree, classUnrounded, classRounded } = evaluateIndex(seenInput(drawn), readings);
        for (const node of [tree, classUnrounded, classRounded]) expect(recomputeMismatches(node, euRules)).toEqual([]);
      }),
      { numRuns: RUNS, seed: 3 },
    );
  });

  const other = (value: FigureValue): FigureValue =>
    value.kind === 'count' ? { kind: 'count', value: value.value + 1 } : { kind: 'open' };

  /** The tree with the value of the n-th node changed. */
  const mutated = (root: Explained, n: number): Explained => {
    let at = 0;
    const visit = (node: Explained): Explained => {
      const value = at++ === n ? other(node.value) : node.value;
      return { ...node, value, children: node.children.map(visit) };
    };
    return visit(root);
  };

  it('shows a change of any one value', () => {
    const { tree } = evaluate(deviceX({ hinge: [3, 'reusable', 'none'] }, { foldable: known(true) }));
    const count = nodesOf(tree).length;
    for (let n = 0; n < count; n++) expect(recomputeMismatches(mutated(tree, n), euRules).length).toBeGreaterThan(0);
    expect(count).toBeGreaterThan(70);
  });

  it('names clause and formula at every node', () => {
    for (const node of nodesOf(evaluate(deviceX()).tree)) {
      expect(node.rule.clause).toContain('(EU) 2023/1669');
      expect(node.rule.formula).not.toBe('');
    }
  });

  it('reads the points from the tree of a count that the caller hangs below them', () => {
    const steps: Explained = {
      id: 'battery-steps',
      label: 'steps',
      value: { kind: 'count', value: 11 },
      rule: { id: 'test/steps', clause: 'none', formula: 'none' },
      inputs: [],
      missing: [],
      children: [],
    };
    const { tree, figures } = evaluate(
      withPart('battery', partFinding('battery', [11, 'resupplied', 'basic'], { explained: { steps } })),
    );
    const leaf = findExplained(tree, 'SDD/battery/instance-1/steps');
    expect([leaf?.value, figures.parts.battery?.DD, figures.parts.battery?.steps]).toEqual([steps.value, 2, 11]);
    expect(recomputeMismatches(tree, { ...euRules, 'test/steps': () => steps.value })).toEqual([]);
  });

  it('says which rung is next and what it asks for', () => {
    const next = (path: string, input = deviceX()) => {
      const node = findExplained(evaluate(input).tree, path);
      return node && showFigure(node.value);
    };
    expect(next('SSP/next')).toBe('4 points ask for front camera to end users: no; rear camera to end users: no');
    expect(next('SSU/next')).toBe(undefined);
    expect(
      next(
        'SSU/next',
        deviceX({}, { updates: { ...deviceX().updates, corrective: known(6.5), functionality: open('f') } }),
      ),
    ).toBe('5 years are not given for: functionality open');
    expect(next('SSU/next', deviceX({}, { updates: { ...deviceX().updates, corrective: known(6.5) } }))).toBe(
      '7 years are not given for: corrective 6.5',
    );
    expect(next('SRI/next')?.startsWith('5 points ask for identification to the public free: no;')).toBe(true);
    expect(next('SRI/next', deviceX({}, { information: informationFor('free', 'free') }))).toBe(undefined);
  });
});

describe('evaluateIndex', () => {
  it('gives what the formula of R gives, written out on settled inputs', () => {
    fc.assert(
      fc.property(productDraw, (drawn) => {
        const { figures } = evaluate(trueInput(drawn));
        fc.pre(figures.R !== null);
        const foldable = drawn.foldable.value;
        const weights = foldable ? [25, 25, 9, 4, 4, 4, 4, 4, 4, 17] : [30, 30, 10, 5, 5, 5, 5, 5, 5, 0];
        const band = (n: number) => (n <= 2 ? 5 : n <= 5 ? 4 : n <= 10 ? 3 : n <= 15 ? 2 : 1);
        const f: Record<string, number> = { reusable: 5, resupplied: 3, removable: 1 };
        const t: Record<string, number> = { none: 5, basic: 4, 'with-spare': 3, 'with-product': 2, commercial: 1 };
        let [sdd, sf, st] = [0, 0, 0];
        drawn.roles.forEach(({ absent, instances }, index) => {
          const lowest = (points: readonly number[]) => (absent.value ? 5 : Math.min(...points));
          const weight = weights[index] ?? 0;
          if (weight === 0) return;
          sdd += weight * lowest(instances.map((part) => band(part.steps.value)));
          sf += weight * lowest(instances.map((part) => f[part.fastener.value] ?? Number.NaN));
          st += weight * lowest(instances.map((part) => t[part.tool.value] ?? Number.NaN));
        });
        const { SDD, SF, ST, SSP, SSU, SRI } = figures.scores;
        expect([SDD, SF, ST]).toEqual([sdd, sf, st].map((sum) => (sum / 100).toFixed(2)));
        const r = 25 * sdd + 15 * (sf + st) + 1500 * (Number(SSP) + Number(SSU) + Number(SRI));
        expect(figures.R).toBe((r / 10_000).toFixed(4));
      }),
      { numRuns: RUNS, seed: 4 },
    );
  });

  it('does not depend on the names and the order of instances', () => {
    fc.assert(
      fc.property(productDraw, readingsDraw, (drawn, readings) => {
        const input = seenInput(drawn);
        const renamed = Object.fromEntries(
          Object.entries(input.parts).map(([role, { absent, instances }]) => [
            role,
            { absent, instances: [...instances].reverse().map((part, index) => ({ ...part, part: `z${9 - index}` })) },
          ]),
        ) as unknown as IndexInput['parts'];
        const first = evaluateIndex(input, readings).figures;
        const second = evaluateIndex({ ...input, parts: renamed }, readings).figures;
        const { notScorable: a, ...plain } = first;
        const { notScorable: b, ...other } = second;
        expect(other).toEqual(plain);
        expect(b.map(({ what }) => what)).toEqual(a.map(({ what }) => what));
      }),
      { numRuns: RUNS, seed: 5 },
    );
  });

  it('never falls when one part gets one step fewer, a better fastener or a better tool', () => {
    const better = {
      removable: 'resupplied',
      resupplied: 'reusable',
      commercial: 'with-product',
      'with-product': 'with-spare',
      'with-spare': 'basic',
      basic: 'none',
    } as Record<string, string>;
    const raise = (part: PartFinding, key: 'steps' | 'fastener' | 'tool'): PartFinding => {
      const finding = part[key];
      if (finding.state !== 'known') return part;
      const value = typeof finding.value === 'number' ? finding.value - 1 : (better[finding.value] ?? finding.value);
      return { ...part, [key]: { ...finding, value } };
    };
    const where = fc.record({
      role: fc.nat(9),
      instance: fc.nat(2),
      key: fc.constantFrom('steps' as const, 'fastener' as const, 'tool' as const),
    });
    fc.assert(
      fc.property(productDraw, readingsDraw, where, (drawn, readings, at) => {
        const input = trueInput(drawn);
        const role = Object.keys(input.parts)[at.role] as PriorityRole;
        const instances = input.parts[role].instances.map((part, index) =>
          index === at.instance ? raise(part, at.key) : part,
        );
        const raised = { ...input, parts: { ...input.parts, [role]: { ...input.parts[role], instances } } };
        const [before, after] = [input, raised].map((each) => evaluateIndex(each, readings).figures.R);
        if (before !== null) expect(Number(after)).toBeGreaterThanOrEqual(Number(before));
      }),
      { numRuns: RUNS, seed: 6 },
    );
  });
});

describe('what is open or below the scale', () => {
  it('leaves open what needs it, and lists it as missing', () => {
    const { figures, tree } = evaluate(
      withPart('battery', partFinding('battery', [8, 'resupplied', 'basic'], { fastener: open('parts.bat.fastener') })),
    );
    expect([figures.R, figures.classUnrounded, figures.classRounded, figures.scores.SF, figures.scores.SDD]).toEqual([
      null,
      null,
      null,
      null,
      '2.60',
    ]);
    expect(figures.parts.battery).toEqual({ steps: 8, DD: 3, F: null, T: 4 });
    expect(tree.missing.map(({ address }) => address)).toEqual(['parts.bat.fastener']);
    expect(figures.notScorable).toEqual([]);
  });

  it('has no score for a proprietary tool, never 0', () => {
    const { figures } = evaluate(deviceX({ button: [17, 'resupplied', 'below-scale'] }));
    expect([figures.R, figures.scores.ST, figures.parts.button?.T]).toEqual([null, null, null]);
    expect(figures.notScorable).toEqual([
      { what: 'ST/button', why: 'a proprietary tool is needed, and the table ends at commercially available tools' },
    ]);
  });

  it('is not scorable where both apply', () => {
    const open1 = partFinding('speaker', [9, 'reusable', 'basic'], { part: 's1', steps: open('parts.s1.steps') });
    const broken = partFinding('speaker', [9, 'reusable', 'basic'], {
      part: 's2',
      steps: belowScale('the frame cracks'),
    });
    const { tree, figures } = evaluate(withPart('speaker', open1, broken));
    expect(figures.notScorable).toEqual([{ what: 'SDD/speaker', why: 'the frame cracks' }]);
    expect(tree.value).toEqual({ kind: 'not-scorable', why: 'not scorable on SDD' });
  });

  it('is open for a part neither found nor shown to be absent', () => {
    const { figures, tree } = evaluate(withPart('microphone'));
    expect(figures.parts.microphone).toEqual({ steps: null, DD: null, F: null, T: null });
    expect(tree.missing[0]?.what).toBe('no microphone was found, nor shown to be absent');
    const { what, remedy } = evaluate(withPart('back-cover')).tree.missing[0] ?? {};
    expect([what, remedy]).toEqual([
      'no back cover was found, nor shown to be absent',
      'Record the back cover, or that there is none.',
    ]);
  });

  it('lists ten parts and keeps R open while the weight column is', () => {
    const { figures } = evaluate(deviceX({}, { foldable: open('product.foldable') }));
    expect([Object.keys(figures.parts).length, figures.R, figures.scores.SDD, figures.scores.SSU]).toEqual([
      10,
      null,
      null,
      '5.00',
    ]);
  });

  it('settles SSP where what is open could not change the rung', () => {
    const spares = {
      ...sparesFor(['display']),
      speaker: { endUsers: open<boolean>('spares.speaker'), professionals: known(true) },
    };
    const { figures, tree } = evaluate(deviceX({}, { spares }));
    expect([figures.scores.SSP, tree.missing]).toEqual(['1.00', []]);
  });

  it('has no SSP for a display that only professionals get, with the reason', () => {
    const { figures } = evaluate(deviceX({}, { spares: sparesFor(['battery']) }));
    expect(figures.notScorable).toEqual([
      { what: 'SSP', why: 'the lowest rung, 1 point, asks for what is not given: display to end users' },
    ]);
  });

  it('asks for the hinge as a spare only where the product is foldable', () => {
    const hinge = { endUsers: known(false), professionals: known(false) };
    const spares = { ...sparesFor('all'), hinge };
    const lines = { hinge: [3, 'reusable', 'none'] } as const;
    const ssp = (foldable: IndexInput['foldable']) => evaluate(deviceX(lines, { foldable, spares })).figures.scores.SSP;
    expect([ssp(known(false)), ssp(known(true)), ssp(open('f'))]).toEqual(['5.00', null, null]);
  });
});
