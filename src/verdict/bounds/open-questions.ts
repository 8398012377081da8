import type { MissingFact } from '#quantity/explained';
import type { OpenVariable } from '../open/open-variable.ts';
import { openVariables } from '../open/open-variables.ts';
import { trialVariables } from '../open/trial-variables.ts';
import type { OpenState } from './open-state.ts';
import type { Objective } from './scaled-figure.ts';

/** Every question with a list of answers that may move a figure of a basis and was not answered yet; facts first, then trials. */
export function* openQuestions(state: OpenState, objective: Objective): Generator<OpenVariable, undefined> {
  const asked = new Set(state.answers.map(({ variable }) => variable.id));
  const isNew = ({ id, answers }: OpenVariable): boolean => answers.length > 0 && !asked.has(id);
  yield* openVariables(state.assessment, factsOf(state, objective), state.kitFacts).filter(isNew);
  if (!isSupply(objective)) yield* trialVariables(state).filter(isNew);
}

const isSupply = (objective: Objective): boolean => ['SSP', 'SSU', 'SRI'].includes(objective);

/** Which open facts does a figure of the basis wait for? Of its parts as well where it is about parts. */
export const factsOf = ({ index, inputs }: OpenState, objective: Objective): readonly MissingFact[] => {
  if (objective === 'R') return index.missing;
  const own = index.tree.children.find(({ id }) => id === objective)?.missing ?? [];
  if (isSupply(objective)) return own;
  const ofParts = [...inputs.parts.values()].flatMap(({ wide }) =>
    [wide.steps, wide.fastener, wide.tool].flatMap((finding) => (finding.state === 'open' ? finding.missing : [])),
  );
  return [...own, ...ofParts];
};
