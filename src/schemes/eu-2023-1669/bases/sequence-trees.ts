import type { Explained } from '#quantity/explained';
import type { SequenceItem } from '#routes/sequence/bench-sequence';
import type { CountedStep, StepEnd } from '#routes/steps/step-counter';
import { count, word } from '../figure.ts';
import { clause } from '../method.ts';
import { basisRules, FASTENER_ORDER, TOOL_ORDER } from './basis-rules.ts';
import type { ClassRange } from './class-ranges.ts';

/** Why did a step end, in words? */
export const END_WORDS: Readonly<Record<StepEnd, string>> = {
  removal: 'a part came off',
  'tool-change': 'the tool was changed',
  heating: 'heating is a step of its own',
  cleaning: 'cleaning is a step of its own',
  unplugged: 'unplugging ends a step under this reading',
  open: 'not ended',
};

const valued = (draft: Omit<Explained, 'value'>): Explained => {
  const rule = basisRules[draft.rule.id];
  if (!rule) throw new RangeError(`no rule ${draft.rule.id}`);
  return { ...draft, value: rule({ ...draft, value: { kind: 'open' } }) };
};

/** What was done in one step, in words: its atoms with what they released and removed. */
export const stepWords = (step: CountedStep, items: readonly SequenceItem[], itemOf: readonly number[]): string =>
  [...new Set(step.atoms.map((atom) => itemOf[atom] ?? 0))].map((index) => items[index]?.address ?? '').join(', ');

/** Why is a step count what it is? One child for each counted step, with the items in it and the reason it ended. */
export const stepsTree = (
  steps: readonly CountedStep[],
  items: readonly SequenceItem[],
  itemOf: readonly number[],
): Explained =>
  valued({
    id: 'steps',
    label: 'steps from the complete product',
    unit: 'steps',
    rule: {
      id: 'eu/steps-total',
      clause: clause('Annex I (20) and Annex IV point 5, disassembly depth'),
      formula: 'sum of the counted steps and the pairing steps',
    },
    inputs: [],
    missing: [],
    children: steps.map((step, index) => stepNode(step, { index, items, itemOf })),
  });

const stepNode = (
  step: CountedStep,
  at: { readonly index: number; readonly items: readonly SequenceItem[]; readonly itemOf: readonly number[] },
): Explained => {
  const within = [...new Set(step.atoms.map((atom) => at.itemOf[atom] ?? 0))].flatMap((index) => at.items[index] ?? []);
  return valued({
    id: `step-${at.index + 1}`,
    label: `${within.map((item) => item.address).join(', ')}; ended: ${END_WORDS[step.ended]}`,
    unit: 'steps',
    rule: {
      id: 'eu/step-operation',
      clause: clause('Annex I (20); Annex IV point 5: tools used together are a step each'),
      formula: 'tools begun in the operation, at least 1',
    },
    inputs: [
      {
        address: 'counted',
        label: `steps this operation counts as, with ${step.tools.length > 0 ? step.tools.join(' and ') : 'bare hands'}`,
        value: count(step.count),
        evidence: [...new Set(within.flatMap((item) => item.evidence))],
      },
    ],
    missing: [],
    children: [],
  });
};

/** The node of the pairing share of a step count. */
export const pairingNode = (
  steps: number | undefined,
  evidence: readonly string[],
  missing: Explained['missing'],
): Explained =>
  valued({
    id: 'pairing',
    label: 'pairing steps: 5 for each remote notification or authorisation',
    unit: 'steps',
    rule: {
      id: 'eu/pairing-steps',
      clause: clause('Annex IV point 5, remote notification or authorisation of serial numbers'),
      formula: '5 × remote actions',
    },
    inputs: [
      {
        address: 'counted',
        label: 'pairing steps',
        value: steps === undefined ? { kind: 'open' } : count(steps),
        evidence,
      },
    ],
    missing,
    children: [],
  });

/** Adds the pairing node to a tree of steps; the total follows. */
export const withPairing = (steps: Explained, pairing: Explained): Explained =>
  valued({ ...steps, missing: [...steps.missing, ...pairing.missing], children: [...steps.children, pairing] });

/** Why is a class what it is? One child for each fastener met or tool used in the stretch. */
export const classTree = (
  kind: 'fastener' | 'tool',
  ranges: readonly (readonly [string, ClassRange<string>])[],
): Explained => {
  const order: readonly string[] = kind === 'fastener' ? FASTENER_ORDER : TOOL_ORDER;
  return valued({
    id: kind,
    label:
      kind === 'fastener'
        ? 'worst fastener since the previous priority part'
        : 'worst tool since the previous priority part',
    rule: {
      id: kind === 'fastener' ? 'eu/worst-fastener' : 'eu/worst-tool',
      clause: clause(
        `Annex IV point 5, ${kind === 'fastener' ? 'fasteners' : 'tools'}; the stretch since the previous priority part`,
      ),
      formula: `the worst of the stretch; ${order.at(-1)} where there is none`,
    },
    inputs: [],
    missing: ranges.flatMap(([, range]) => range.missing),
    children: ranges.map(([id, range]) => rangeNode(kind, id, range)),
  });
};

const rangeNode = (kind: 'fastener' | 'tool', id: string, range: ClassRange<string>): Explained =>
  valued({
    id,
    label: `${id}: ${range.why}`,
    rule: {
      id: 'eu/class-of',
      clause: clause(kind === 'fastener' ? 'Annex I (17) to (19), Annex IVa' : 'Annex I (42) to (44), Annex IVa'),
      formula: 'the class, where both ends agree',
    },
    inputs: [
      { address: 'worst', label: 'worst class still possible', value: word(range.worst), evidence: range.evidence },
      { address: 'best', label: 'best class still possible', value: word(range.best), evidence: range.evidence },
    ],
    missing: range.missing,
    children: [],
  });
