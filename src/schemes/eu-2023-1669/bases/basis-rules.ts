import type { Explained, FigureValue, RuleBook } from '#quantity/explained';
import { count, inputValue, OPEN, word } from '../figure.ts';

/** The classes of fasteners, worst first. */
export const FASTENER_ORDER = ['below-scale', 'removable', 'resupplied', 'reusable'] as const;
/** The classes of tools, worst first. */
export const TOOL_ORDER = ['below-scale', 'commercial', 'with-product', 'with-spare', 'basic', 'none'] as const;

/** Which of some classes is the worst, in a given order? The last of the order where there is none. */
export const worstOf = <C extends string>(classes: readonly C[], order: readonly C[]): C => {
  const found = order.find((name) => classes.includes(name)) ?? order.at(-1);
  if (found === undefined) throw new RangeError('an order of classes has at least one class');
  return found;
};

const sumOfChildren = (node: Explained): FigureValue => {
  let sum = 0;
  for (const child of node.children) {
    if (child.value.kind !== 'count') return OPEN;
    sum += child.value.value;
  }
  return count(sum);
};

const stepCount = (node: Explained): FigureValue => {
  const countsAt = (isAt: (address: string) => boolean): number =>
    node.inputs.reduce(
      (sum, { address, value }) => sum + (isAt(address) && value.kind === 'count' ? value.value : 0),
      0,
    );
  const tools = countsAt((address) => address.startsWith('tool/'));
  return count(Math.max(1, tools) + countsAt((address) => address === 'further'));
};

const range = (node: Explained): { worst: string; best: string } => {
  const worst = inputValue(node, 'worst');
  const best = inputValue(node, 'best');
  return { worst: worst.kind === 'word' ? worst.value : '', best: best.kind === 'word' ? best.value : '' };
};

const settledRange = (node: Explained): FigureValue => {
  const { worst, best } = range(node);
  return worst === best ? word(worst) : OPEN;
};

const worstChild =
  (order: readonly string[]) =>
  (node: Explained): FigureValue => {
    const ranges = node.children.map(range);
    const worst = worstOf(
      ranges.map((ends) => ends.worst),
      order,
    );
    const best = worstOf(
      ranges.map((ends) => ends.best),
      order,
    );
    return worst === best ? word(worst) : OPEN;
  };

/** How are the step counts and classes below an index recomputed from their own nodes? */
export const basisRules: RuleBook = {
  'eu/steps-total': sumOfChildren,
  'eu/step-operation': stepCount,
  'eu/pairing-steps': (node) => inputValue(node, 'counted'),
  'eu/declared-figure': (node) => inputValue(node, 'declared'),
  'eu/class-of': settledRange,
  'eu/worst-fastener': worstChild(FASTENER_ORDER),
  'eu/worst-tool': worstChild(TOOL_ORDER),
};
