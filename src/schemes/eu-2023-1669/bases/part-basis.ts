import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import { STEPS_WITHOUT_BOUND } from '../index-figures.ts';
import type { FastenerClass, Finding, PartFinding, PriorityRole, ToolClass } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { type ClassRange, findingOfRange } from './class-ranges.ts';
import type { JudgedSequence } from './judge-sequence.ts';
import { type IndexSource, pairingFinding } from './pairing.ts';
import { pairingNode, withPairing } from './sequence-trees.ts';

/** What one basis says of one part: the findings as they stand, the same with open trials left open, and the sequence behind them. */
export interface PartBasis {
  readonly part: string;
  readonly role: PriorityRole;
  /** Open trials at their pessimistic value; open facts open. */
  readonly main: PartFinding;
  /** Open trials and open facts both open, each between its ends. */
  readonly wide: PartFinding;
  readonly judged?: JudgedSequence;
  /** Steps without pairing: as shown, and the fewest nothing excludes. */
  readonly shownSteps?: number;
  readonly fewestSteps?: number;
  readonly proved: boolean;
  /** Fasteners whose ways can bear on what is said here; undefined where any may. */
  readonly released?: ReadonlySet<string>;
}

/** Two ends of a step count without pairing [steps]; `worst` is undefined where nothing bounds it. */
export interface StepEnds {
  readonly worst: number | undefined;
  readonly best: number;
}

/**
 * How many steps can one action add whose tools are not recorded? Two tools at once are two steps instead of one, and a change
 * of tool before it and after it one each. More than two tools at once is not thought of: two hands hold no more.
 */
const MOST_STEPS_OF_UNKNOWN_TOOLS = 3;

/** Between which counts do the steps of a sequence lie while tools of some of its actions are not recorded? */
export const endsWithUnknownTools = (
  { steps, unknownTools }: Pick<JudgedSequence, 'steps' | 'unknownTools'>,
  readings: Interpretations,
): { readonly worst: number; readonly best: number } => {
  const unknown = unknownTools.length;
  // Counted as bare hands, an unknown action ends a step before it only where bare hands are a change of tool.
  const fewer = readings['bare-hands'] === 'change' ? 2 * unknown : 0;
  return { worst: steps + MOST_STEPS_OF_UNKNOWN_TOOLS * unknown, best: Math.max(1, steps - fewer) };
};

/** What is a step count with pairing on it? Open where either part is. */
export const stepsWithPairing = (
  ends: StepEnds,
  pairing: Finding<number>,
  missing: readonly MissingFact[],
): Finding<number> => {
  if (pairing.state === 'not-scorable') return pairing;
  const worstPairing = pairing.state === 'known' ? pairing.value : (pairing.worst ?? 10);
  const bestPairing = pairing.state === 'known' ? pairing.value : (pairing.best ?? 0);
  const best = ends.best + bestPairing;
  const worst = ends.worst === undefined ? STEPS_WITHOUT_BOUND : ends.worst + worstPairing;
  if (best === worst)
    return { state: 'known', value: best, evidence: pairing.state === 'known' ? pairing.evidence : [] };
  return { state: 'open', missing: [...missing, ...(pairing.state === 'open' ? pairing.missing : [])], worst, best };
};

/** The finding of a judged sequence: its steps with pairing, its classes, its trees. */
export const judgedFinding = (
  part: DevicePart,
  judged: JudgedSequence,
  context: { readonly source: IndexSource; readonly readings: Interpretations },
): PartFinding => {
  const pairing = pairingFinding(context.source, part.id, context.readings);
  const unknown = judged.unknownTools.map(
    (address): MissingFact => ({
      address: `${address}/tools`,
      what: `which tools were in use at ${address}`,
      remedy: 'look at the clip and record the tools, [] for bare hands',
    }),
  );
  const steps = stepsWithPairing(endsWithUnknownTools(judged, context.readings), pairing, unknown);
  return {
    role: part.role as PriorityRole,
    part: part.id,
    name: part.name,
    pairingSteps: pairing,
    steps,
    fastener: findingOfRange(judged.fastener),
    tool: findingOfRange(judged.tool),
    explained: explainedBy(judged, unknown.length === 0 ? pairing : undefined),
  };
};

/** The trees of a sequence, its steps with pairing where they are known; each made when it is looked at. */
const explainedBy = (
  { trees }: JudgedSequence,
  pairing: Finding<number> | undefined,
): NonNullable<PartFinding['explained']> => {
  const classes = {
    get fastener() {
      return trees.fastener;
    },
    get tool() {
      return trees.tool;
    },
  };
  if (!pairing) return classes;
  return Object.defineProperty(classes, 'steps', {
    get: () => withPairing(trees.steps, pairingNodeOf(pairing)),
    enumerable: true,
  });
};

const pairingNodeOf = (pairing: Finding<number>) =>
  pairingNode(
    pairing.state === 'known' ? pairing.value : undefined,
    pairing.state === 'known' ? pairing.evidence : [],
    pairing.state === 'open' ? pairing.missing : [],
  );

/** The same finding with its step count and classes opened to the given ends; ends that agree stay known. */
export const widened = (
  finding: PartFinding,
  ends: {
    readonly steps: StepEnds;
    readonly fastener: ClassRange<FastenerClass>;
    readonly tool: ClassRange<ToolClass>;
    readonly missing: readonly MissingFact[];
  },
): PartFinding => {
  const { explained: _trees, ...plain } = finding;
  const steps = stepsWithPairing(ends.steps, finding.pairingSteps, ends.missing);
  return { ...plain, steps, fastener: findingOfRange(ends.fastener), tool: findingOfRange(ends.tool) };
};
