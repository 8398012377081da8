import type { DevicePart } from '#record/device/device';
import { type BenchRun, benchRuns, type LoggedAction, loggedActions, startsComplete } from '#record/log/bench-log';
import { actionDurations } from '#record/log/durations';
import { preparesFor, wayOfEntry } from '#record/log/way-of-entry';
import type { RouteSource } from '../problem/from-record.ts';
import { reachCondition } from '../problem/reachability.ts';
import { precedencesOf } from '../problem/requirements.ts';
import type { Fact, Reach, RouteAtom } from '../problem/route-problem.ts';
import type { SequenceItem } from './bench-sequence.ts';

/** What did the reference specimen's own log do to free one part? The items kept, in their order, and the sessions they stand in. */
export interface ObservedSequence {
  readonly items: readonly SequenceItem[];
  readonly sessions: readonly string[];
  /** Failed attempts on what was needed, as items; they count only by the switch. */
  readonly failed: readonly { readonly item: SequenceItem; readonly before: number }[];
}

/** How many choices among alternatives of sets are tried before the smallest set is simply taken. */
const MAX_CHOICES = 256;

const NO_TRIALS = { positive: [], negative: [], sight: undefined };

/** Which specimen is the reference? The one named; else the only one, or the first with a session. */
export const referenceSpecimen = (source: RouteSource): string | undefined =>
  source.assessment.product.reference ?? Object.values(source.assessment.sessions ?? {})[0]?.specimen;

/** The log of one run up to the moment a part came free. */
interface RunToPart {
  readonly actions: readonly LoggedAction[];
  readonly last: number;
}

const KIND_RANK: Readonly<Record<string, number>> = { measured: 0, exploration: 1 };

/** Which run of the reference specimen shows a part coming free? The first measured one that began complete, else the first other. */
const runTo = (source: RouteSource, part: string): RunToPart | undefined => {
  const specimen = referenceSpecimen(source);
  const runs = benchRuns(source.assessment).filter(
    (run) => run.specimen === specimen && startsComplete(source.assessment, run),
  );
  const found = runs.flatMap((run) => {
    const actions = runActions(source, run);
    const last = actions.findIndex((action) => action.effects.freed.includes(part));
    return last < 0 ? [] : [{ actions, last, rank: KIND_RANK[actions[last]?.kind ?? ''] ?? 2 }];
  });
  return found.sort((a, b) => a.rank - b.rank)[0];
};

const runActions = (source: RouteSource, run: BenchRun): readonly LoggedAction[] =>
  run.sessions.flatMap((session) => loggedActions(source.assessment, source.device, session));

/**
 * What of the reference specimen's own actions does a part need? Its log in order up to the part's release, less what
 * reachability shows unneeded; all of it where `keepAll`. Where alternatives of sets are left, `fewest` judges them.
 * Undefined where the part never came free on the reference specimen in a run that began complete.
 */
export const observedSequence = (
  source: RouteSource,
  part: string,
  options: {
    readonly reach: Reach;
    readonly keepAll: boolean;
    readonly fewest: (items: readonly SequenceItem[]) => number;
  },
): ObservedSequence | undefined => {
  const run = runTo(source, part);
  if (!run) return undefined;
  const durations = durationsOf(source, run.actions);
  const build = (kept: ReadonlySet<number>): ObservedSequence => sequenceOf(source, run, kept, durations);
  if (options.keepAll) return build(new Set(run.actions.slice(0, run.last + 1).keys()));
  const choices = new NeededActions(source, run, options.reach, part).choices();
  const sequences = choices.map(build);
  return sequences.reduce<ObservedSequence | undefined>(
    (best, next) => (best && options.fewest(best.items) <= options.fewest(next.items) ? best : next),
    undefined,
  );
};

const durationsOf = (source: RouteSource, actions: readonly LoggedAction[]): ReadonlyMap<string, number> => {
  const all = new Map<string, number>();
  for (const session of new Set(actions.map((action) => action.session))) {
    const record = source.assessment.sessions?.[session];
    if (!record) continue;
    const own = actions.filter((action) => action.session === session);
    for (const [entry, duration] of actionDurations(source.assessment, record, own))
      all.set(`${session}/${entry}`, duration.milliseconds);
  }
  return all;
};

/** Which actions of a run does freeing a part need? Backwards over what each release or removal needed, alternatives enumerated. */
class NeededActions {
  private readonly source: RouteSource;
  private readonly run: RunToPart;
  private readonly reach: Reach;
  private readonly part: string;

  constructor(source: RouteSource, run: RunToPart, reach: Reach, part: string) {
    this.source = source;
    this.run = run;
    this.reach = reach;
    this.part = part;
  }

  /** All sets of needed action indices, one a combination of alternatives, at most {@link MAX_CHOICES}. */
  choices(): readonly ReadonlySet<number>[] {
    let open: { kept: Set<number>; todo: { fact: Fact; before: number }[] }[] = [
      { kept: new Set(), todo: [{ fact: `free/${this.part}`, before: this.run.last + 1 }] },
    ];
    const done: Set<number>[] = [];
    while (open.length > 0) {
      const state = open.pop();
      const next = state?.todo.pop();
      if (!state) break;
      if (!next) {
        done.push(state.kept);
        continue;
      }
      const branches = this.require(next.fact, next.before, state.kept);
      const room = Math.max(1, MAX_CHOICES - done.length - open.length);
      const copies = branches
        .slice(0, room)
        .map((branch) => ({ kept: new Set([...state.kept, ...branch.kept]), todo: [...state.todo, ...branch.todo] }));
      open = [...open, ...copies];
    }
    return done;
  }

  /** The alternatives in which a fact was brought about before an index: actions kept and facts needed in turn. A fact never brought about asks for nothing. */
  private require(
    fact: Fact,
    before: number,
    kept: ReadonlySet<number>,
  ): { kept: number[]; todo: { fact: Fact; before: number }[] }[] {
    const index = this.lastGiving(fact, before);
    if (index < 0 || kept.has(index)) return [{ kept: [], todo: [] }];
    const action = this.run.actions[index];
    if (!action) return [{ kept: [], todo: [] }];
    const subjects = [...action.effects.released, ...action.effects.freed, ...action.effects.aside];
    const own = [index, ...subjects.flatMap((subject) => this.companions(subject, index))];
    const conditions = subjects.map((subject) => this.conditions(subject));
    const needs = conditions.flatMap((condition) => condition.needs);
    const clauses = conditions.flatMap((condition) => condition.anyOf);
    const combos = combine(clauses.map((clause) => this.held(clause, index)));
    return combos.map((extra) => ({
      kept: own,
      todo: [...needs, ...extra].map((needed) => ({ fact: needed, before: index })),
    }));
  }

  /** Of a clause's alternatives, those that held when the action was done; none where the record proves no such moment. */
  private held(clause: readonly (readonly Fact[])[], index: number): readonly (readonly Fact[])[] {
    const held = clause.filter((alternative) => alternative.every((fact) => this.lastGiving(fact, index) >= 0));
    return held.length > 0 ? held : [[]];
  }

  private lastGiving(fact: Fact, before: number): number {
    const id = fact.slice(fact.indexOf('/') + 1);
    const holds = (part: string): boolean => this.source.device.parts.get(part)?.cluster.has(id) ?? false;
    let found = -1;
    for (let index = Math.min(before, this.run.actions.length) - 1; index >= 0; index--) {
      const effects = this.run.actions[index]?.effects;
      if (!effects) continue;
      if (fact.startsWith('released/') && effects.released.includes(id)) return index;
      if (fact.startsWith('free/') && effects.freed.includes(id)) return index;
      if (!fact.startsWith('off/')) continue;
      // What is aside does not come off again when it is lifted away: the first move since its last refit made it off.
      if (effects.refitted.some((part) => part === id || holds(part))) break;
      if ([...effects.freed, ...effects.aside].some(holds)) found = index;
    }
    return found;
  }

  private conditions(subject: string): { needs: readonly Fact[]; anyOf: readonly (readonly (readonly Fact[])[])[] } {
    const { source } = this;
    const reach = reachCondition(subject, source.trials.get(subject) ?? NO_TRIALS, {
      device: source.device,
      reach: this.reach,
    });
    const first = precedencesOf(subject, source.assessment, source.device).flatMap((precedence) => precedence.first);
    const holding = crossingFacts(source.device.parts.get(subject));
    return {
      needs: [...(reach.reachable ? reach.needs : []), ...first, ...holding],
      anyOf: reach.reachable ? reach.anyOf : [],
    };
  }

  /** What was done on a fastener or part besides: heat, solvent, partial work, cleaning before it came. */
  private companions(subject: string, index: number): number[] {
    const fastener = this.source.device.fasteners.get(subject);
    const earlier = this.lastGiving(fastener ? `released/${subject}` : `off/${subject}`, index);
    const found: number[] = [];
    for (let at = earlier + 1; at < index; at++) {
      const action = this.run.actions[at];
      if (!action || action.record.outcome === 'failed') continue;
      const partial = action.record.outcome === 'partial' && action.record.target === subject;
      const cleaning = action.record.do === 'clean' && action.record.target === subject;
      if (partial || cleaning || (fastener && preparesFor(action.record, fastener, this.source.device))) found.push(at);
    }
    return found;
  }
}

const crossingFacts = (part: DevicePart | undefined): readonly Fact[] =>
  (part?.crossing ?? []).map((id): Fact => `released/${id}`);

/** Every way of taking one alternative from each clause, cut at {@link MAX_CHOICES}. */
const combine = (clauses: readonly (readonly (readonly Fact[])[])[]): (readonly Fact[])[] => {
  let combos: (readonly Fact[])[] = [[]];
  for (const clause of clauses)
    combos = combos.flatMap((combo) => clause.map((alternative) => [...combo, ...alternative])).slice(0, MAX_CHOICES);
  return combos;
};

const sequenceOf = (
  source: RouteSource,
  run: RunToPart,
  kept: ReadonlySet<number>,
  durations: ReadonlyMap<string, number>,
): ObservedSequence => {
  const items: SequenceItem[] = [];
  const sessions = new Set<string>();
  const failed: { item: SequenceItem; before: number }[] = [];
  const off = new Set<string>();
  const subjects = new Set(
    [...kept].flatMap((index) => [
      ...(run.actions[index]?.effects.released ?? []),
      ...(run.actions[index]?.effects.freed ?? []),
    ]),
  );
  for (const [index, action] of run.actions.slice(0, run.last + 1).entries()) {
    const item = itemOfEntry(source, action, { milliseconds: durations.get(`${action.session}/${action.entry}`), off });
    if (action.record.outcome === 'failed' && subjects.has(action.record.target ?? ''))
      failed.push({ item, before: items.length });
    if (!kept.has(index) || action.record.do === undefined) continue;
    items.push(item);
    sessions.add(action.session);
  }
  return { items, sessions: [...sessions], failed };
};

const itemOfEntry = (
  source: RouteSource,
  action: LoggedAction,
  { milliseconds, off }: { readonly milliseconds: number | undefined; readonly off: Set<string> },
): SequenceItem => {
  const { record, effects } = action;
  const moved = [...effects.freed, ...effects.aside];
  const newly = moved
    .flatMap((part) => [...(source.device.parts.get(part)?.cluster ?? [part])])
    .filter((part) => !off.has(part));
  for (const part of newly) off.add(part);
  const removed = effects.freed[0] ?? effects.aside[0];
  const fastener = source.device.fasteners.get(effects.released[0] ?? '');
  const count = effects.released.reduce((sum, id) => sum + (source.device.fasteners.get(id)?.count ?? 1), 0);
  const atom: RouteAtom = {
    do: record.do ?? 'test',
    tools: [...new Set(record.tools ?? [])].sort(),
    ...(milliseconds === undefined ? {} : { milliseconds }),
    ...((record.place ?? record.target) === undefined ? {} : { place: record.place ?? record.target ?? '' }),
    ...(fastener
      ? {
          releases: {
            fastener: fastener.id,
            count,
            asItems: fastener.kind === 'screw' || fastener.kind === 'stretch-release-strip',
          },
        }
      : {}),
    ...(removed === undefined
      ? {}
      : {
          removes: { part: removed, becomes: effects.freed.includes(removed) ? ('free' as const) : ('aside' as const) },
        }),
  };
  return {
    address: `sessions/${action.session}/entries/${action.entry}`,
    atoms: [atom],
    released: effects.released.map((id) => ({ fastener: id, leaves: leavesOf(source, id, action) })),
    off: [...new Set(newly)],
    evidence: record.evidence ?? [],
    toolsUnknown: record.tools === undefined,
  };
};

const leavesOf = (source: RouteSource, id: string, action: LoggedAction) => {
  const fastener = source.device.fasteners.get(id);
  const way = fastener ? wayOfEntry(fastener, action.record) : undefined;
  return way === undefined ? undefined : fastener?.ways[way]?.leaves;
};
