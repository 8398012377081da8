import type { Explained, FigureInput, MissingFact } from '#quantity/explained';
import { explain } from './explain.ts';
import { count, givenInput, missingInAll } from './figure.ts';

/** One thing a rung asks for: whether it is shown (yes, no, open), and what is missing to tell. */
export interface Requirement {
  readonly input: FigureInput;
  readonly missing: readonly MissingFact[];
}

/** One rung of a ladder: its points and all it asks for. */
export interface Rung {
  readonly points: number;
  readonly says: string;
  readonly requirements: readonly Requirement[];
}

/** Which ladder is climbed? Its score, its name in words and its clause. */
export interface LadderHead {
  readonly id: string;
  readonly label: string;
  readonly clause: string;
}

const openMissing = (requirements: readonly Requirement[]): readonly MissingFact[] =>
  missingInAll(requirements.filter(({ input }) => input.value.kind === 'open').map(({ missing }) => missing));

const rungNode = (head: LadderHead, rung: Rung): Explained => {
  const node = explain({
    id: `rung-${rung.points}`,
    label: `${rung.points} points: ${rung.says}`,
    rule: { id: 'eu/rung', clause: head.clause, formula: 'reached when every requirement is shown' },
    inputs: rung.requirements.map(({ input }) => input),
    missing: [],
    children: [],
  });
  return node.value.kind === 'open' ? { ...node, missing: openMissing(rung.requirements) } : node;
};

const nextNode = (head: LadderHead, rung: Rung): Explained =>
  explain({
    id: 'next',
    label: 'the next rung',
    rule: {
      id: 'eu/next-rung',
      clause: head.clause,
      formula: 'requirements of the lowest rung not shown to be reached',
    },
    inputs: [
      givenInput('points', 'points of the next rung', count(rung.points)),
      ...rung.requirements.map(({ input }) => input),
    ],
    missing: openMissing(rung.requirements),
    children: [],
  });

const isReached = (node: Explained): boolean => node.value.kind === 'word' && node.value.value === 'reached';

/**
 * Which rung of a ladder is reached, which comes next and what does it ask for? Rungs from the highest to the lowest; a
 * strict ladder: one thing lacking caps the score whatever else is given. Below the lowest rung there is no score.
 */
export const climbLadder = (head: LadderHead, rungs: readonly Rung[]): Explained => {
  const nodes = rungs.map((rung) => rungNode(head, rung));
  const next = rungs.findLast((_, index) => {
    const node = nodes[index];
    return node !== undefined && !isReached(node);
  });
  const node = explain({
    id: head.id,
    label: head.label,
    rule: { id: 'eu/ladder', clause: head.clause, formula: 'points of the highest rung reached' },
    inputs: [],
    missing: [],
    children: next ? [...nodes, nextNode(head, next)] : nodes,
  });
  const missing = node.value.kind === 'open' ? missingInAll(nodes.map((child) => child.missing)) : [];
  return { ...node, missing };
};
