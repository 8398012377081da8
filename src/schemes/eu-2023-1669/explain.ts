import type { Explained } from '#quantity/explained';
import { invariant } from '#quantity/unfasten-error';
import { OPEN } from './figure.ts';
import { euRules } from './rules.ts';

/** A node before its value: everything the rule reads. */
export type Draft = Omit<Explained, 'value'>;

/** What is a node's value? Its rule applied to it: the engine and the recomputation are one. */
export const explain = (draft: Draft): Explained => {
  const rule = euRules[draft.rule.id];
  invariant(rule !== undefined, 'every node has a rule', draft.rule.id);
  return { ...draft, value: rule({ ...draft, value: OPEN }) };
};
