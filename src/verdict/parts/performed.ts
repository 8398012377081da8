import { benchRuns, loggedActions, startsComplete } from '#record/log/bench-log';
import { wayOfEntry } from '#record/log/way-of-entry';
import type { RouteSource } from '#routes/problem/from-record';
import type { RouteAction } from '#routes/problem/route-problem';

/** Was a route done from end to end in one run that began complete, and in which sessions? Each of its actions, in the same way, before the part came free. */
export const performedEndToEnd = (
  source: RouteSource,
  part: string,
  route: readonly RouteAction[],
): readonly string[] | undefined => {
  for (const run of benchRuns(source.assessment)) {
    if (!startsComplete(source.assessment, run)) continue;
    const actions = run.sessions.flatMap((session) => loggedActions(source.assessment, source.device, session));
    const freed = actions.findIndex((action) => action.effects.freed.includes(part));
    if (freed < 0) continue;
    const before = actions.slice(0, freed + 1);
    const did = (action: RouteAction): boolean =>
      before.some((logged) => {
        if (action.kind === 'lift') return logged.effects.freed.includes(action.subject);
        if (action.kind === 'fold') return logged.effects.aside.includes(action.subject);
        const fastener = source.device.fasteners.get(action.subject);
        return (
          fastener !== undefined &&
          logged.effects.released.includes(action.subject) &&
          (Object.keys(fastener.ways).length === 0 || wayOfEntry(fastener, logged.record) === action.way)
        );
      });
    if (route.every(did)) return [...new Set(before.map((action) => action.session))];
  }
  return undefined;
};

/** Does a route go back? Shown where the log has every part and fastener of it put back; else what is missing. */
export const reversibleOf = (
  source: RouteSource,
  part: string,
  route: readonly RouteAction[] | undefined,
): { readonly shown: boolean; readonly why: string } => {
  const stated = source.assessment.parts?.[part]?.putBack;
  if (stated === 'shown') return { shown: true, why: 'the record says that it was put back' };
  if (stated === 'not-shown' || !route)
    return { shown: false, why: route ? 'the record says that putting back was not shown' : 'no route is shown' };
  const refitted = new Set<string>();
  for (const run of benchRuns(source.assessment))
    for (const session of run.sessions)
      for (const action of loggedActions(source.assessment, source.device, session))
        for (const id of action.effects.refitted) refitted.add(id);
  const missing = route.map((action) => action.subject).filter((id) => !refitted.has(id));
  if (missing.length === 0) return { shown: true, why: 'every part and fastener of the route was put back in the log' };
  return {
    shown: false,
    why: `no entry puts back ${missing.slice(0, 4).join(', ')}${missing.length > 4 ? ` and ${missing.length - 4} more` : ''}`,
  };
};
