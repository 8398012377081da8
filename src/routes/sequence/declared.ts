import { toolSet } from '#record/device/tool-set';
import { effectsOf, type LogEffects } from '#record/log/effects';
import { wayOfEntry } from '#record/log/way-of-entry';
import type { Procedure } from '#record/schema/assessment';
import type { RouteSource } from '../problem/from-record.ts';
import type { ReuseClass, RouteAtom } from '../problem/route-problem.ts';
import type { SequenceItem } from './bench-sequence.ts';
import { NewlyOff } from './newly-off.ts';
import { releaseOf } from './release-atom.ts';

type Step = Procedure['steps'][number];

/** Which of the maker's procedures frees a part? Of several the latest by date, then the one with fewest steps, then the first recorded. */
export const procedureFor = (source: RouteSource, part: string): readonly [string, Procedure] | undefined =>
  Object.entries(source.assessment.procedures ?? {})
    .filter(([, procedure]) => procedure.for === part)
    .sort(([, a], [, b]) => byDate(b) - byDate(a) || a.steps.length - b.steps.length)[0];

const byDate = ({ date }: Procedure): number => (date === undefined ? 0 : Date.parse(date));

/** Which items does a procedure of the maker have, in its own order? What a step changes is read as in a log. */
export const declaredItems = (source: RouteSource, id: string, procedure: Procedure): readonly SequenceItem[] => {
  const off = new NewlyOff(source.device);
  return procedure.steps.map((step, index) => {
    const effects = effectsOf(step, source.device);
    return {
      address: `procedures/${id}/steps/${index}`,
      atoms: [declaredAtom(source, step, effects)],
      released: effects.released.map((fastener) => ({
        fastener,
        leaves: declaredLeaves(source, fastener, { step, before: procedure.steps.slice(0, index) }),
      })),
      off: off.take([...effects.freed, ...effects.aside]),
      evidence: procedure.evidence ?? [],
      toolsUnknown: step.tools === undefined,
    };
  });
};

const declaredAtom = (source: RouteSource, step: Step, effects: LogEffects): RouteAtom => {
  const releases = releaseOf(effects.released, source.device);
  const removed = effects.freed[0] ?? effects.aside[0];
  const place = step.place ?? step.target;
  return {
    do: step.do,
    tools: toolSet(step.tools),
    ...(place === undefined ? {} : { place }),
    ...(step.afterRelease === undefined ? {} : { afterRelease: step.afterRelease }),
    ...(releases === undefined ? {} : { releases }),
    ...(removed === undefined
      ? {}
      : { removes: { part: removed, becomes: effects.freed.length > 0 ? ('free' as const) : ('aside' as const) } }),
    ...(step.remote === undefined ? {} : { remote: step.remote }),
  };
};

const declaredLeaves = (
  source: RouteSource,
  id: string,
  { step, before }: { readonly step: Step; readonly before: readonly Step[] },
): ReuseClass | undefined => {
  const fastener = source.device.fasteners.get(id);
  if (!fastener) return undefined;
  const [only, ...others] = Object.keys(fastener.ways);
  const preparations = before.filter((other) => other.target === id);
  const way = wayOfEntry(fastener, step, preparations) ?? (others.length === 0 ? only : undefined);
  return fastener.ways[way ?? '']?.leaves;
};
