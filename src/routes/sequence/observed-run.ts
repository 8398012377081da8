import { type BenchRun, benchRuns, type LoggedAction, runActions, startsComplete } from '#record/log/bench-log';
import { actionDurations } from '#record/log/durations';
import { GroundworkTrail } from '#record/log/groundwork';
import type { RouteSource } from '../problem/from-record.ts';

/** What was done on a fastener or part before it came off, since it last came off? Each list in the order of the log. */
export interface Groundwork {
  /** Heat, solvent and cold that the success rests on. */
  readonly preparations: readonly LoggedAction[];
  /** Work that took some of the set off. */
  readonly partial: readonly LoggedAction[];
  readonly cleaning: readonly LoggedAction[];
  /** Failed attempts, with the preparations that only they used. */
  readonly failed: readonly LoggedAction[];
}

/** The log of one run up to the moment a part came free, with what led up to each release and how long each action took. */
export interface ObservedRun {
  readonly actions: readonly LoggedAction[];
  /** Index of the action that freed the part. */
  readonly last: number;
  /** What led up to a subject's coming off by the action of this index. */
  readonly groundwork: (index: number, subject: string) => Groundwork | undefined;
  /** How long an action took without taking up its tool [ms]. */
  readonly milliseconds: (action: LoggedAction) => number | undefined;
}

/** What of a record its logs alone are read with. */
export type BenchSource = Pick<RouteSource, 'assessment' | 'device'>;

const KIND_RANK: Readonly<Record<string, number>> = { measured: 0, exploration: 1 };

/** Which run of a specimen shows a part coming free? The first measured one that began complete, else the first other. */
export const observedRun = (
  source: RouteSource,
  part: string,
  specimen: string | undefined,
): ObservedRun | undefined => {
  const runs = benchRuns(source.assessment).filter(
    (run) => run.specimen === specimen && startsComplete(source.assessment, run),
  );
  const found = runs.flatMap((run) => {
    const actions = runActions(source, run);
    const last = actions.findIndex((action) => action.effects.freed.includes(part));
    return last < 0 ? [] : [{ run, actions, last, rank: KIND_RANK[actions[last]?.kind ?? ''] ?? 2 }];
  });
  const [first] = found.sort((a, b) => a.rank - b.rank);
  return first && withGroundwork(source, first);
};

/** What has been done so far in the run that a session goes on with? All of it, whatever came free. Undefined for an unknown session. */
export const runSoFar = (source: BenchSource, session: string): ObservedRun | undefined => {
  const run = benchRuns(source.assessment).find(({ sessions }) => sessions.includes(session));
  if (!run) return undefined;
  const actions = runActions(source, run);
  return withGroundwork(source, { run, actions, last: actions.length - 1 });
};

const withGroundwork = (
  source: BenchSource,
  { run, actions, last }: { readonly run: BenchRun; readonly actions: readonly LoggedAction[]; readonly last: number },
): ObservedRun => {
  const trail = new GroundworkTrail(source.device);
  const found = new Map<string, Groundwork>();
  for (const [index, action] of actions.slice(0, last + 1).entries()) {
    const { way } = action.record;
    for (const subject of subjectsOf(action))
      found.set(`${index}/${subject}`, {
        preparations: trail.preparations(subject, way),
        partial: trail.partial(subject),
        cleaning: trail.cleaning(subject),
        failed: trail.failed(subject, way),
      });
    trail.note(action);
  }
  const durations = durationsOf(source, run, actions);
  return {
    actions,
    last,
    groundwork: (index, subject) => found.get(`${index}/${subject}`),
    milliseconds: (action) => durations.get(`${action.session}/${action.entry}`),
  };
};

/** What did an action take off? Fasteners released, parts freed or laid aside. */
export const subjectsOf = ({ effects }: LoggedAction): readonly string[] => [
  ...new Set([...effects.released, ...effects.freed, ...effects.aside]),
];

const durationsOf = (
  source: BenchSource,
  run: BenchRun,
  actions: readonly LoggedAction[],
): ReadonlyMap<string, number> => {
  const all = new Map<string, number>();
  for (const id of run.sessions) {
    const session = source.assessment.sessions?.[id];
    if (!session) continue;
    const own = actions.filter((action) => action.session === id);
    for (const [entry, duration] of actionDurations(source.assessment, session, own))
      all.set(`${id}/${entry}`, duration.milliseconds);
  }
  return all;
};
