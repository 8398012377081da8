import { benchRuns, type LoggedAction, loggedActions, startsComplete } from '#record/log/bench-log';
import { wayKey } from '#record/log/experience';
import type { RouteSource } from '#routes/problem/from-record';
import type { RouteAction } from '#routes/problem/route-problem';

/**
 * Was a route done from end to end in one run that began complete, and in which sessions? Each of its actions, in the same
 * way and in the same order, before the part came free; what else was done between does not matter. The same actions in
 * another order are no performance of this route.
 */
export const performedEndToEnd = (
  source: RouteSource,
  part: string,
  route: readonly RouteAction[],
): readonly string[] | undefined => {
  for (const run of benchRuns(source.assessment)) {
    if (!startsComplete(source.assessment, run)) continue;
    const actions = run.sessions.flatMap((session) => loggedActions(source.assessment, source.device, session));
    const freed = actions.findIndex((action) => action.effects.freed.includes(part));
    const before = actions.slice(0, freed + 1);
    if (freed >= 0 && inOrder(source, before, route)) return [...new Set(before.map((action) => action.session))];
  }
  return undefined;
};

/** Are the actions of a route found in the log one after the other? One entry may stand for several that follow each other. */
const inOrder = (source: RouteSource, log: readonly LoggedAction[], route: readonly RouteAction[]): boolean => {
  let from = 0;
  for (const action of route) {
    const at = log.findIndex((logged, index) => index >= from && isDone(source, logged, action));
    if (at < 0) return false;
    from = at;
  }
  return true;
};

const isDone = (source: RouteSource, logged: LoggedAction, action: RouteAction): boolean => {
  if (action.kind === 'lift') return logged.effects.freed.includes(action.subject);
  if (action.kind === 'fold') return logged.effects.aside.includes(action.subject);
  const entries = source.experience.ways.get(wayKey(action.subject, action.way ?? ''))?.entries ?? [];
  return (
    logged.effects.released.includes(action.subject) &&
    entries.includes(`sessions/${logged.session}/entries/${logged.entry}`)
  );
};

/** Does a route go back? Shown where the log has every part and fastener of it put back; else what is missing. */
export const reversibleOf = (
  source: RouteSource,
  part: string,
  { route, nameOf }: { readonly route: readonly RouteAction[] | undefined; readonly nameOf: (id: string) => string },
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
    why: `no entry puts back ${missing.slice(0, 4).map(nameOf).join(', ')}${missing.length > 4 ? ` and ${missing.length - 4} more` : ''}`,
  };
};
