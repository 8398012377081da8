import { leapsIn, type SequenceStep } from '#routes/open-trials/leaps';
import type { RouteSource } from '#routes/problem/from-record';
import type { RouteAction } from '#routes/problem/route-problem';
import { subjectsOf } from '#routes/sequence/observed-run';
import { fewestPossible, routeOfHighest } from '#schemes/eu-2023-1669/bases/best-search';
import type { BasisInputs } from '#schemes/eu-2023-1669/bases/index-inputs';
import { observedChoices } from '#schemes/eu-2023-1669/bases/observed-choices';
import type { PartBasis } from '#schemes/eu-2023-1669/bases/part-basis';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import type { Groundwork } from '../index-bases.ts';
import type { OpenVariable } from './open-variable.ts';
import { sightQuestion, trialQuestion } from './trial-questions.ts';

/** What the trials of a basis are asked for. */
export interface TrialContext {
  readonly groundwork: Groundwork;
  readonly readings: Interpretations;
  readonly inputs: BasisInputs;
}

/**
 * Which trials could still move a priority part on this basis? Those that would show a route possible which nothing excludes
 * (best found), or an action of the reference specimen's own needless (observed); and what was to be seen there. Each once.
 */
export const trialVariables = (context: TrialContext): readonly OpenVariable[] => {
  const { source } = context.groundwork;
  const found = new Map<string, OpenVariable>();
  const sights = new Map<string, OpenVariable>();
  for (const part of context.inputs.parts.values()) {
    if (!isOpen(part)) continue;
    for (const steps of sequencesOf(part, context))
      for (const trial of leapsIn(steps, source)) {
        const question = trialQuestion(source, trial);
        found.set(question.id, question);
        const sight = sightQuestion(source, trial);
        if (sight && !sights.has(sight.id)) sights.set(sight.id, sight);
      }
  }
  return [...found.values(), ...sights.values()];
};

/** Do open trials leave this part between two ends? What is open in both forms alike is a fact, not a trial. */
const isOpen = ({ main, wide }: PartBasis): boolean =>
  (['steps', 'fastener', 'tool'] as const).some((key) => JSON.stringify(main[key]) !== JSON.stringify(wide[key]));

const sequencesOf = (part: PartBasis, context: TrialContext): readonly (readonly SequenceStep[])[] => {
  if (context.inputs.basis === 'observed') return observedSequences(part.part, context.groundwork.source);
  if (context.inputs.basis !== 'best') return [];
  const judging = { source: context.groundwork.source, readings: context.readings, part: part.part };
  const { problems } = context.groundwork;
  const fewest = fewestPossible(problems, [`free/${part.part}`], judging);
  const highest = routeOfHighest(problems, judging);
  return [fewest.kind === 'found' ? fewest.actions : [], highest].map((actions) => actions.map(stepOf));
};

const stepOf = ({ subject, gives }: RouteAction): SequenceStep => ({ subjects: [subject], gives });

const observedSequences = (part: string, source: RouteSource): readonly (readonly SequenceStep[])[] => {
  const choices = observedChoices(source, part);
  if (!choices) return [];
  const { run, possible } = choices;
  const withContents = (id: string): readonly string[] => [...(source.device.parts.get(id)?.cluster ?? [id])];
  return possible.map(({ kept }) =>
    [...kept]
      .sort((a, b) => a - b)
      .flatMap((index): readonly SequenceStep[] => {
        const action = run.actions[index];
        if (!action) return [];
        const { released, freed, aside } = action.effects;
        const gives = [
          ...released.map((id) => `released/${id}` as const),
          ...[...aside, ...freed].flatMap((id) => withContents(id).map((inner) => `off/${inner}` as const)),
          ...freed.map((id) => `free/${id}` as const),
        ];
        return [{ subjects: subjectsOf(action), gives }];
      }),
  );
};
