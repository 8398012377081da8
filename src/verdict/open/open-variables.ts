import type { MissingFact } from '#quantity/explained';
import type { Assessment } from '#record/schema/assessment';
import { kitVariables } from './kit-variables.ts';
import type { OpenVariable } from './open-variable.ts';
import { partVariable } from './part-variables.ts';
import { supplyVariable } from './supply-variables.ts';

/**
 * Which facts are open that the figures depend on, each with its answers? In the order in which the figures name them; the
 * trials apart, which stand in `trial-variables`. A fact that no list of answers covers has none. `kitFacts`: what other bases ask
 * of kits, so that a kit is asked about as a whole.
 */
export const openVariables = (
  assessment: Assessment,
  missing: readonly MissingFact[],
  kitFacts: readonly MissingFact[] = [],
): readonly OpenVariable[] => {
  const variables = new Map<string, OpenVariable>();
  const keep = (variable: OpenVariable): void => {
    if (!variables.has(variable.id)) variables.set(variable.id, variable);
  };
  const kits = kitVariables(assessment, missing, kitFacts);
  for (const variable of kits) keep(variable);
  for (const fact of missing) {
    if (fact.address === 'parts' || /\/contents\//.test(fact.address) || /\/trials$/.test(fact.address)) continue;
    keep(supplyVariable(assessment, fact) ?? partVariable(assessment, fact) ?? withoutAnswers(fact));
  }
  return [...variables.values()];
};

const withoutAnswers = ({ address, what, remedy }: MissingFact): OpenVariable => ({
  id: address,
  kind: 'fact',
  touches: 'routes',
  asks: what,
  remedy,
  answers: [],
});
