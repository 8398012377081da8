import type { Explained, FigureValue, RuleBook } from '#quantity/explained';
import { FASTENER_POINTS, stepPoints, TOOL_POINTS } from './bands.ts';
import { basisRules } from './bases/basis-rules.ts';
import { classOf, roundedR } from './classes.ts';
import { childOrInput, count, decimal, inputValue, isNotScorable, notScorable, OPEN, word } from './figure.ts';
import { ladderRules } from './ladder-rules.ts';
import { updateRules } from './update-ladder-rules.ts';
import { SCORE_WEIGHTS, SCORES } from './weights.ts';

/** How many points does a node's own figure earn in a table? Values outside the table are passed through as they are. */
const pointsIn = (value: FigureValue, table: Readonly<Record<string, number>>, below: string): FigureValue => {
  if (value.kind !== 'word') return value;
  const points = table[value.value];
  return points === undefined ? notScorable(below) : count(points);
};

const depthPoints = (node: Explained): FigureValue => {
  const steps = childOrInput(node, 'steps', 'steps');
  return steps.kind === 'count' ? count(stepPoints(steps.value)) : steps;
};

const fastenerPoints = (node: Explained): FigureValue =>
  pointsIn(
    childOrInput(node, 'fastener', 'fastener'),
    FASTENER_POINTS,
    'a fastener is neither reusable, resupplied nor removable, and the table ends at removable',
  );

const toolPoints = (node: Explained): FigureValue =>
  pointsIn(
    childOrInput(node, 'tool', 'tool'),
    TOOL_POINTS,
    'a proprietary tool is needed, and the table ends at commercially available tools',
  );

/** Which of several values is the lowest? Below the scale beats all; anything open leaves it open. */
const lowest = (values: readonly FigureValue[]): FigureValue => {
  const below = values.find(isNotScorable);
  if (below) return below;
  const points = values.flatMap((value) => (value.kind === 'count' ? [value.value] : []));
  return points.length === values.length && points.length > 0 ? count(Math.min(...points)) : OPEN;
};

const ofRole = (node: Explained): FigureValue => {
  const absent = inputValue(node, 'absent');
  if (isNotScorable(absent)) return absent;
  if (absent.kind !== 'word') return OPEN;
  return absent.value === 'yes' ? count(5) : lowest(node.children.map((child) => child.value));
};

/** Ranks hold one input an instance at `rank/<child id>`; equal ranks mean equal points in all three scores. */
const ofLowestInstance = (node: Explained): FigureValue => {
  const ranked = node.children.map((child) => ({ value: child.value, rank: inputValue(node, `rank/${child.id}`) }));
  const below = ranked.filter(({ rank }) => isNotScorable(rank)).map(({ value }) => value);
  if (below.some(isNotScorable)) return lowest(below);
  if (ranked.some(({ rank }) => rank.kind === 'open'))
    return ranked.length === 1 ? lowest([...node.children.map((child) => child.value)]) : OPEN;
  if (below.length > 0) return lowest(below);
  const ranks = ranked.map(({ rank }) => (rank.kind === 'count' ? rank.value : Number.POSITIVE_INFINITY));
  return ranked[ranks.indexOf(Math.min(...ranks))]?.value ?? OPEN;
};

/** Σ weight × points in hundredths. With the weights open, nothing but a part that both columns weigh can rule it out. */
const weightedSum = (node: Explained): FigureValue => {
  const weighed = inputValue(node, 'foldable').kind === 'word';
  const sure = node.children.filter((child) => weighed || child.id !== 'hinge');
  const below = sure.flatMap(({ label, value }) => (isNotScorable(value) ? [`${label}: ${value.why}`] : []));
  if (below.length > 0) return notScorable(below.join('; '));
  let sum = 0;
  for (const child of node.children) {
    const weight = inputValue(node, `weight/${child.id}`);
    if (child.value.kind !== 'count' || weight.kind !== 'decimal') return OPEN;
    sum += weight.scaled * child.value.value;
  }
  return decimal(sum, 2);
};

const ofR = (node: Explained): FigureValue => {
  const below = node.children.filter((child) => isNotScorable(child.value)).map((child) => child.id);
  if (below.length > 0) return notScorable(`not scorable on ${below.join(', ')}`);
  let sum = 0;
  for (const score of SCORES) {
    const value = node.children.find((child) => child.id === score)?.value;
    if (value?.kind !== 'decimal' || value.decimals !== 2) return OPEN;
    sum += SCORE_WEIGHTS[score] * value.scaled;
  }
  return decimal(sum, 4);
};

const asClass = (node: Explained, convert: (r: number) => number): FigureValue => {
  const r = inputValue(node, 'R');
  if (r.kind !== 'decimal') return r;
  return word(classOf(convert(r.scaled)) ?? 'none');
};

/** How is every figure of the index recomputed from its children and inputs? One rule an id; also the engine itself. */
export const euRules: RuleBook = {
  'eu/R': ofR,
  'eu/weighted-sum': weightedSum,
  'eu/role': ofRole,
  'eu/lowest-instance': ofLowestInstance,
  'eu/DD': depthPoints,
  'eu/F': fastenerPoints,
  'eu/T': toolPoints,
  'eu/class-unrounded': (node) => asClass(node, (r) => r),
  'eu/class-rounded': (node) => asClass(node, (r) => roundedR(r) * 100),
  ...basisRules,
  ...ladderRules,
  ...updateRules,
};
