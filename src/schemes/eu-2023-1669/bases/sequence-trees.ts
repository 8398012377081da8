import type { Explained, FigureInput } from '#quantity/explained';
import type { RouteAtom } from '#routes/problem/route-problem';
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

/** What is a tree of steps made from? */
export interface StepsTreeContext {
  readonly items: readonly SequenceItem[];
  /** Which item each atom of the count belongs to. */
  readonly itemOf: readonly number[];
  /** Does this tool count as one, under the readings? */
  readonly isTool: (tool: string) => boolean;
  /** What a part or fastener is called. */
  readonly nameOf: (id: string) => string;
}

/** Why is a step count what it is? One child for each counted step, with what was done in it and the reason it ended. */
export const stepsTree = (steps: readonly CountedStep[], context: StepsTreeContext): Explained =>
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
    children: steps.map((step, index) => stepNode(step, index, context)),
  });

const stepNode = (step: CountedStep, index: number, context: StepsTreeContext): Explained => {
  const indices = [...new Set(step.atoms.map((atom) => context.itemOf[atom] ?? 0))];
  const tools = step.tools.filter(context.isTool);
  const further = step.count - Math.max(1, tools.length);
  return valued({
    id: `step-${index + 1}`,
    label: `${stepPhrases(step, indices, context).join(', ')}; ended: ${END_WORDS[step.ended]}`,
    unit: 'steps',
    rule: {
      id: 'eu/step-operation',
      clause: clause('Annex I (20); Annex IV point 5: tools used together are a step each'),
      formula: 'tools in use in the operation, at least 1, and what else the readings count or do not',
    },
    inputs: [
      ...indices.flatMap((at) => workInput(context.items[at])),
      ...tools.map((tool) => ({ address: `tool/${tool}`, label: 'a tool in use', value: count(1), evidence: [] })),
      ...(further === 0 ? [] : [furtherInput(further)]),
    ],
    missing: [],
    children: [],
  });
};

/** A count that tools in use do not give: pieces taken out as parts, a first pick-up, a tool or a heating counted before. */
const furtherInput = (further: number): FigureInput => ({
  address: 'further',
  label: 'steps more or less by the readings: pieces, first pick-up, a tool or a heating already counted',
  value: count(further),
  evidence: [],
});

const workInput = (item: SequenceItem | undefined): readonly FigureInput[] =>
  item
    ? [{ address: `work/${item.address}`, label: 'done in this step', value: word('done'), evidence: item.evidence }]
    : [];

/** What was done in one step, in words. */
const stepPhrases = (
  step: CountedStep,
  indices: readonly number[],
  { items, itemOf, nameOf }: StepsTreeContext,
): readonly string[] =>
  indices.flatMap((index) => {
    const item = items[index];
    const first = itemOf.indexOf(index);
    const own = step.atoms.filter((atom) => itemOf[atom] === index);
    return own.flatMap((atom) => {
      const work = item?.atoms[atom - first];
      return item && work ? [`${work.do.replaceAll('-', ' ')} ${subjectOf(item, work, nameOf)}`.trim()] : [];
    });
  });

const subjectOf = (item: SequenceItem, atom: RouteAtom, nameOf: (id: string) => string): string => {
  if (atom.removes) return nameOf(atom.removes.part);
  if (atom.releases) return item.released.map(({ fastener }) => nameOf(fastener)).join(' and ');
  const place = atom.place ?? item.released[0]?.fastener;
  return place === undefined ? '' : nameOf(place);
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
