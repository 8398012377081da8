import type { Explained, FigureInput, FigureValue, MissingFact } from '#quantity/explained';
import { roleName } from '../role-name.ts';
import { FASTENER_POINTS, STEP_BANDS, TOOL_POINTS } from './bands.ts';
import { explain } from './explain.ts';
import { count, decimal, givenInput, inputOf, isNotScorable, missingInAll, missingOf, OPEN, word } from './figure.ts';
import type { Finding, IndexInput, PartFinding, PriorityRole } from './input.ts';
import type { Interpretations } from './interpretations.ts';
import { clause } from './method.ts';
import { SCORE_WEIGHTS } from './weights.ts';

/** The three scores that are built from priority parts. */
export const PART_SCORES = ['SDD', 'SF', 'ST'] as const;

/** One score built from priority parts. */
export type PartScore = (typeof PART_SCORES)[number];

/** The table itself in the formula, so that whoever reads a figure can check its rung: `up to 2 earn 5, up to 5 earn 4, …`. */
const bandWords = STEP_BANDS.map(({ upTo, points }) =>
  Number.isFinite(upTo) ? `up to ${upTo} earn ${points}` : `more earn ${points}`,
).join(', ');

const classWords = (points: Readonly<Record<string, number>>): string =>
  Object.entries(points)
    .map(([name, earned]) => `${name} ${earned}`)
    .join(', ');

const POINTS_OF: Readonly<Record<PartScore, { rule: string; table: string; formula: string }>> = {
  SDD: { rule: 'eu/DD', table: 'DDi', formula: `band of the number of steps: ${bandWords}` },
  SF: {
    rule: 'eu/F',
    table: 'Fi',
    formula: `class of the worst fastener in the stretch: ${classWords(FASTENER_POINTS)}`,
  },
  ST: { rule: 'eu/T', table: 'Ti', formula: `class of the worst tool in the stretch: ${classWords(TOOL_POINTS)}` },
};

/** How is an instance named in a tree? By its part id, or by its place among the instances of a score sheet. */
const instanceId = (finding: PartFinding, index: number): string => finding.part ?? `instance-${index + 1}`;

const flag = (value: boolean): FigureValue => word(value ? 'yes' : 'no');

const inputsOf = (finding: PartFinding, score: PartScore): readonly FigureInput[] => {
  if (score === 'SF') return [inputOf({ address: 'fastener', label: 'worst fastener class' }, finding.fastener, word)];
  if (score === 'ST') return [inputOf({ address: 'tool', label: 'worst tool class' }, finding.tool, word)];
  return [
    inputOf({ address: 'steps', label: 'steps from the complete product, pairing included' }, finding.steps, count),
    inputOf({ address: 'pairing-steps', label: 'of these, pairing steps' }, finding.pairingSteps, count),
  ];
};

const findingOf = (
  finding: PartFinding,
  score: PartScore,
): { key: 'steps' | 'fastener' | 'tool'; missing: readonly MissingFact[] } => {
  const key = score === 'SDD' ? 'steps' : score === 'SF' ? 'fastener' : 'tool';
  return { key, missing: missingOf<unknown>(finding[key] as Finding<unknown>) };
};

/** How many points does one instance earn on one score? With the caller's own tree of the count below it, where given. */
const instancePoints = (finding: PartFinding, score: PartScore, id: string): Explained => {
  const { rule, table, formula } = POINTS_OF[score];
  const { key, missing } = findingOf(finding, score);
  const below = finding.explained?.[key];
  return explain({
    id,
    label: finding.name,
    unit: 'points',
    rule: { id: rule, clause: clause(`Annex IV point 5, table of ${table}`), formula },
    inputs: inputsOf(finding, score),
    missing,
    children: below ? [{ ...below, id: key }] : [],
  });
};

/**
 * Which instance is the lowest in all? Its share of R in hundredths per unit weight, then its points, in one number, so
 * that equal ranks mean equal points; below the scale and open stay what they are.
 */
const rankOf = (finding: PartFinding): FigureValue => {
  const values = PART_SCORES.map((score) => instancePoints(finding, score, 'rank').value);
  const below = values.find(isNotScorable);
  if (below) return below;
  const points = values.flatMap((value) => (value.kind === 'count' ? [value.value] : []));
  if (points.length < PART_SCORES.length) return OPEN;
  const share = PART_SCORES.reduce((sum, score, index) => sum + SCORE_WEIGHTS[score] * (points[index] ?? 0), 0);
  return count(points.reduce((rank, value) => rank * 10 + value, share));
};

const rankInputs = (instances: readonly PartFinding[]): readonly FigureInput[] =>
  instances.map((finding, index) => {
    const id = instanceId(finding, index);
    return givenInput(`rank/${id}`, `rank of ${finding.name}: 25 DD + 15 F + 15 T, then the points`, rankOf(finding));
  });

const missingOfRole = (
  node: Explained,
  role: PriorityRole,
  instances: readonly PartFinding[],
): readonly MissingFact[] => {
  const address = `parts/${role}`;
  const none = {
    address,
    what: `no ${roleName(role)} was found, nor shown to be absent`,
    remedy: `Record the ${roleName(role)}, or that there is none.`,
  };
  const own = missingInAll(node.children.map((child) => child.missing));
  return instances.length === 0 ? [none] : own;
};

/**
 * How many points does a priority part earn on one score? Absent 5; several instances the lowest, for each score or for
 * all three by the reading `duplicated-part` (Annex IV point 5).
 */
export const rolePoints = (
  input: IndexInput,
  readings: Interpretations,
  at: { role: PriorityRole; score: PartScore },
): Explained => {
  const { absent, instances } = input.parts[at.role];
  const gone = absent.state === 'known' && absent.value;
  const oneForAll =
    readings['duplicated-part'] === 'lowest-instance' && instances.length > 1 && absent.state === 'known' && !gone;
  const node = explain({
    id: at.role,
    label: roleName(at.role),
    unit: 'points',
    rule: {
      id: oneForAll ? 'eu/lowest-instance' : 'eu/role',
      clause: clause('Annex IV point 5: absent parts and parts present more than once'),
      formula: oneForAll ? 'the instance lowest in all three scores' : 'absent 5, else the lowest instance',
    },
    inputs: [
      inputOf({ address: 'absent', label: 'the product has no such part' }, absent, flag),
      ...(oneForAll ? rankInputs(instances) : []),
    ],
    missing: [],
    children: gone
      ? []
      : instances.map((finding, index) => instancePoints(finding, at.score, instanceId(finding, index))),
  });
  if (gone) return node;
  const missing = missingInAll([missingOf(absent), missingOfRole(node, at.role, instances)]);
  return node.value.kind === 'count' ? node : { ...node, missing };
};

/** A weight of the law as an input, in hundredths. */
export const weightInput = (role: PriorityRole, hundredths: number): FigureInput =>
  givenInput(`weight/${role}`, `weight of ${roleName(role)}`, decimal(hundredths, 2));
