import type { Procedure } from '#record/schema/assessment';
import type { RouteSource } from '../problem/from-record.ts';
import type { RouteAtom } from '../problem/route-problem.ts';
import type { SequenceItem } from './bench-sequence.ts';

/** Which of the maker's procedures frees a part? The first recorded for it. */
export const procedureFor = (source: RouteSource, part: string): readonly [string, Procedure] | undefined =>
  Object.entries(source.assessment.procedures ?? {}).find(([, procedure]) => procedure.for === part);

/** Which items does a procedure of the maker have, in its own order? */
export const declaredItems = (source: RouteSource, id: string, procedure: Procedure): readonly SequenceItem[] => {
  const off = new Set<string>();
  return procedure.steps.map((step, index) => {
    const target = step.target;
    const isPart = target !== undefined && source.device.parts.has(target);
    const fastener = target === undefined ? undefined : source.device.fasteners.get(target);
    const freed = step.free ?? (step.do === 'lift' && isPart && !step.aside ? [target] : []);
    const aside = step.aside ?? (step.do === 'fold-aside' && isPart ? [target] : []);
    const prepares = step.do === 'heat' || step.do === 'dissolve' || step.do === 'cool' || step.do === 'clean';
    const released = step.released ?? (fastener && !prepares ? [fastener.id] : []);
    const newly = [...freed, ...aside]
      .flatMap((part) => [...(source.device.parts.get(part)?.cluster ?? [part])])
      .filter((part) => !off.has(part));
    for (const part of newly) off.add(part);
    return {
      address: `procedures/${id}/steps/${index}`,
      atoms: [
        declaredAtom(source, step, {
          released,
          removed: freed[0] ?? aside[0],
          becomes: freed.length > 0 ? 'free' : 'aside',
        }),
      ],
      released: released.map((name) => ({ fastener: name, leaves: declaredLeaves(source, name, step.way) })),
      off: newly,
      evidence: procedure.evidence ?? [],
      toolsUnknown: step.tools === undefined,
    };
  });
};

const declaredAtom = (
  source: RouteSource,
  step: Procedure['steps'][number],
  effect: {
    readonly released: readonly string[];
    readonly removed: string | undefined;
    readonly becomes: 'free' | 'aside';
  },
): RouteAtom => {
  const first = source.device.fasteners.get(effect.released[0] ?? '');
  const count = effect.released.reduce((sum, id) => sum + (source.device.fasteners.get(id)?.count ?? 1), 0);
  const place = step.place ?? step.target;
  return {
    do: step.do,
    tools: [...new Set(step.tools ?? [])].sort(),
    ...(place === undefined ? {} : { place }),
    ...(step.afterRelease === undefined ? {} : { afterRelease: step.afterRelease }),
    ...(first
      ? {
          releases: {
            fastener: first.id,
            count,
            asItems: first.kind === 'screw' || first.kind === 'stretch-release-strip',
          },
        }
      : {}),
    ...(effect.removed === undefined ? {} : { removes: { part: effect.removed, becomes: effect.becomes } }),
    ...(step.remote === undefined ? {} : { remote: step.remote }),
  };
};

const declaredLeaves = (source: RouteSource, id: string, way: string | undefined) => {
  const ways = source.device.fasteners.get(id)?.ways ?? {};
  const only = Object.keys(ways).length === 1 ? Object.keys(ways)[0] : undefined;
  return ways[way ?? only ?? '']?.leaves;
};
