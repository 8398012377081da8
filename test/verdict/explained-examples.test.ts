import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { requireAssessment } from '#cli/read-folder';
import { type Explained, recomputeMismatches } from '#quantity/explained';
import type { Assessment } from '#record/schema/assessment';
import { euRules } from '#schemes/eu-2023-1669/rules';
import { groundworkOf, type IndexBasis, indexBases, readingsOf } from '#verdict/index-bases';
import { swapTree, swapTreeRules } from '#verdict/swaps/swap-tree';
import { swapsOf } from '#verdict/swaps/swaps-of';

const recordOf = (name: string): Assessment =>
  requireAssessment(fileURLToPath(new URL(`../../examples/${name}`, import.meta.url))).assessment;

const basesOf = (name: string): readonly IndexBasis[] => {
  const assessment = recordOf(name);
  return indexBases(groundworkOf(assessment), readingsOf(assessment));
};

const nodes = (root: Explained): readonly Explained[] => [root, ...root.children.flatMap(nodes)];

describe('every figure of the examples', () => {
  it.each(['tarn-5', 'tarn-4', 'beck-11', 'quick-log'])('of %s follows from its children and inputs', (name) => {
    for (const { tree, basis } of basesOf(name))
      expect(recomputeMismatches(tree, euRules), `${name}, ${basis}`).toEqual([]);
  });

  it.each(['tarn-5', 'tarn-4'])('of the swaps of %s follows from the runs, and says what the verdict says', (name) => {
    const swaps = swapsOf(recordOf(name));
    if (swaps === undefined) throw new Error('no swaps');
    const tree = swapTree(swaps);
    expect(recomputeMismatches(tree, swapTreeRules)).toEqual([]);
    expect(tree.children.map(({ id, value }) => [id, value])).toEqual(
      swaps.parts.map(({ part, decided }) => [
        part,
        { kind: 'word', value: decided?.explanation.replaceAll('-', ' ') ?? 'undecided' },
      ]),
    );
    const codes = tree.children.flatMap(({ children }) => children.filter(({ rule }) => rule.id === 'swap-effect'));
    expect(codes.map(({ value }) => value)).toEqual(
      swaps.parts.flatMap(({ effects }) =>
        effects.map(({ code }) => (code === undefined ? { kind: 'open' } : { kind: 'word', value: code })),
      ),
    );
  });

  it('of tarn-5 is found out when a step below it is changed', () => {
    const tree = basesOf('tarn-5').find((basis) => basis.basis === 'best')?.tree as Explained;
    const changed = structuredClone(tree);
    const leaf = nodes(changed).find((node) => node.rule.id === 'eu/step-operation') as { value: Explained['value'] };
    leaf.value = { kind: 'count', value: 7 };
    expect(recomputeMismatches(changed, euRules)).toHaveLength(2);
  });

  it('of tarn-5 says of all work in a counted step which log entries it rests on', () => {
    const seen = basesOf('tarn-5')
      .filter(({ basis }) => basis !== 'declared')
      .flatMap(({ tree }) => nodes(tree))
      .flatMap(({ inputs }) => inputs.filter(({ address }) => /^work\/(?:release|lift|fold)\//.test(address)));
    expect(seen.length).toBeGreaterThan(50);
    expect(seen.filter(({ evidence }) => evidence.length === 0).map(({ address }) => address)).toEqual([]);
  });

  it('of tarn-5 names its clause, and every settled input an address', () => {
    const trees = basesOf('tarn-5').map((basis) => basis.tree);
    for (const node of trees.flatMap(nodes)) {
      expect(node.rule.clause).not.toBe('');
      for (const input of node.inputs) expect(input.address).not.toBe('');
    }
  });
});
