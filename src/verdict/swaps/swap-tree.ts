import type { Explained, FigureInput, FigureRule, FigureValue, RuleBook } from '#quantity/explained';
import type { EffectOnFirmware } from '#swaps/diagnosis/effects';
import { swapRules } from '#swaps/diagnosis/figures';
import type { NamedExplanation, SwapRunLine, SwapsVerdict, SwapVerdict } from './swaps-verdict.ts';

/**
 * Why does a swap verdict say what it says? One tree: part by part what makes a foreign piece behave otherwise, under it each rival
 * explanation with the runs that exclude it, and firmware by firmware the effect with its share of units and its exact test. A version
 * of firmware is its own id; one not recorded is `firmware-not-recorded`.
 */
export const swapTree = (swaps: SwapsVerdict): Explained =>
  derived('swaps', 'parts swapped whose cause is decided', {
    rule: 'swap-decided',
    children: swaps.parts.map(partNode),
  });

const partNode = (swap: SwapVerdict): Explained => {
  const { part, name, standing, excluded, moot, effects, runs } = swap;
  const inputs = (ids: readonly string[]) => runInputs(ids, runs);
  return derived(part, `${name}: what makes a foreign piece behave as it does`, {
    rule: 'swap-cause',
    children: [
      ...standing.map((one) => explanationNode(one, 'swap-standing', [])),
      ...excluded.map((one) => explanationNode(one, 'swap-excluded', inputs(one.by))),
      ...moot.map((one) => explanationNode(one, 'swap-moot', [])),
      ...effects.map((effect) => effectNode(effect, inputs)),
    ],
  });
};

const explanationNode = (
  { explanation, name, says }: NamedExplanation,
  rule: 'swap-standing' | 'swap-excluded' | 'swap-moot',
  inputs: readonly FigureInput[],
): Explained => derived(explanation, `${name}: ${says}`, { rule, inputs });

const effectNode = (
  { firmware, cell, afterSteps, shareOfUnits, fisher }: EffectOnFirmware,
  inputs: (ids: readonly string[]) => readonly FigureInput[],
): Explained => {
  const showing = Object.entries(cell.showing).flatMap(([code, ids]) =>
    inputs(ids).map((input): FigureInput => ({ ...input, value: { kind: 'word', value: code } })),
  );
  const label = firmware === undefined ? 'effect, firmware not recorded' : `effect on firmware ${firmware}`;
  const after = afterSteps.map(({ step, runs }) =>
    derived(step, `effect once ${step.replaceAll('-', ' ')}`, { rule: 'swap-after-step', inputs: inputs(runs) }),
  );
  const figures = [shareOfUnits, fisher].flatMap((figure) => figure ?? []);
  return derived(firmware ?? 'firmware-not-recorded', label, {
    rule: 'swap-effect',
    inputs: showing,
    children: [...after, ...figures],
  });
};

const runInputs = (ids: readonly string[], lines: readonly SwapRunLine[]): readonly FigureInput[] =>
  ids.map((id) => {
    const line = lines.find((one) => one.id === id);
    const what = [line?.host, line?.piece, ...(line?.steps ?? []), line?.firmware && `firmware ${line.firmware}`];
    return {
      address: `swaps/${id}`,
      label: what.filter(Boolean).join(', ') || 'run of another part',
      value: { kind: 'word', value: line?.effect ?? line?.outcome ?? 'see there' },
      evidence: line?.evidence ?? [],
    };
  });

const METHOD = 'this tool, docs/method/swap-diagnosis.md';

const rule = (id: string, formula: string): FigureRule => ({ id, clause: METHOD, formula });

const RULES = {
  'swap-decided': rule('swap-decided', 'number of parts of which one explanation stands'),
  'swap-cause': rule(
    'swap-cause',
    'the one explanation that agrees with every run; undecided where several do, or none',
  ),
  'swap-standing': rule('swap-standing', 'agrees with every run'),
  'swap-excluded': rule(
    'swap-excluded',
    'a smallest set of runs that contradicts each of its forms; without names, all together',
  ),
  'swap-moot': rule('swap-moot', 'nothing in any run could come from it'),
  'swap-effect': rule(
    'swap-effect',
    'the worst effect that at least two of the runs showed, else the worst that one did',
  ),
  'swap-after-step': rule('swap-after-step', 'the worst effect of the runs after the step'),
};

const word = (value: string): FigureValue => ({ kind: 'word', value });

const wordsOf = (inputs: readonly FigureInput[]): readonly string[] =>
  inputs.flatMap(({ value }) => (value.kind === 'word' ? value.value : [])).sort();

/** How is each figure of the tree recomputed from what stands below it? */
export const swapTreeRules: RuleBook = {
  ...swapRules,
  'swap-decided': ({ children }) => ({
    kind: 'count',
    value: children.filter(({ value }) => value.kind === 'word' && value.value !== 'undecided').length,
  }),
  'swap-cause': ({ children }) => {
    const [only, ...others] = children.filter((child) => child.rule.id === 'swap-standing');
    return word(only !== undefined && others.length === 0 ? only.id.replaceAll('-', ' ') : 'undecided');
  },
  'swap-standing': () => word('stands'),
  'swap-excluded': () => word('excluded'),
  'swap-moot': () => word('does not arise'),
  'swap-effect': ({ inputs }) => {
    const codes = wordsOf(inputs);
    const twice = codes.filter((code, at) => codes[at + 1] === code);
    const worst = twice.at(-1) ?? codes.at(-1);
    return worst === undefined ? { kind: 'open' } : word(worst);
  },
  'swap-after-step': ({ inputs }) => {
    const worst = wordsOf(inputs).at(-1);
    return worst === undefined ? { kind: 'open' } : word(worst);
  },
};

interface Derivation {
  readonly rule: keyof typeof RULES;
  readonly children?: readonly Explained[];
  readonly inputs?: readonly FigureInput[];
}

const derived = (id: string, label: string, { rule: ruleId, children = [], inputs = [] }: Derivation): Explained => {
  const bare = { id, label, rule: RULES[ruleId], inputs, missing: [], children };
  return { ...bare, value: swapTreeRules[ruleId]?.({ ...bare, value: { kind: 'open' } }) ?? { kind: 'open' } };
};
