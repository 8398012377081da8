import type { Explained, FigureValue } from '#quantity/explained';
import { invariant } from '#quantity/unfasten-error';
import { OPEN } from './figure.ts';
import { euRules } from './rules.ts';

/** A node before its value: everything the rule reads. */
export type Draft = Omit<Explained, 'value'>;

// Written out, not spread: thousands of nodes are made for one verdict, and literals are several times faster.
const withValue = (draft: Draft, value: FigureValue): Explained => {
  const { id, label, unit, rule, inputs, missing, children } = draft;
  return unit === undefined
    ? { id, label, value, rule, inputs, missing, children }
    : { id, label, value, unit, rule, inputs, missing, children };
};

/** What is a node's value? Its rule applied to it: the engine and the recomputation are one. */
export const explain = (draft: Draft): Explained => {
  const rule = euRules[draft.rule.id];
  invariant(rule !== undefined, 'every node has a rule', draft.rule.id);
  return withValue(draft, rule(withValue(draft, OPEN)));
};
