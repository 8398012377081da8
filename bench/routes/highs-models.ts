import type { NeutralAction, NeutralProblem } from '#routes/neutral/neutral-problem';

/** Linear programs as text, grown row by row. */
class Model {
  readonly #rows: string[] = [];
  readonly #binary = new Set<string>();
  readonly #bounds: string[] = [];
  readonly #objective: string[] = [];

  cost(factor: number, name: string): void {
    if (factor !== 0) this.#objective.push(`+ ${factor} ${name}`);
  }

  /** Adds `terms >= right`, a term being a factor and a variable. */
  atLeast(terms: readonly (readonly [number, string])[], right: number): void {
    const sum = terms.map(([factor, name]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`);
    this.#rows.push(` r${this.#rows.length}: ${sum.join('\n ')} >= ${right}`);
  }

  binary(name: string): string {
    this.#binary.add(name);
    return name;
  }

  level(name: string, most: number): string {
    this.#bounds.push(` 0 <= ${name} <= ${most}`);
    return name;
  }

  fixToZero(name: string): void {
    this.#bounds.push(` ${name} = 0`);
  }

  text(): string {
    const objective = this.#objective.join('\n ');
    const rows = this.#rows.join('\n');
    const bounds = [...new Set(this.#bounds)].join('\n');
    return `Minimize\n obj: ${objective}\nSubject To\n${rows}\nBounds\n${bounds}\nBinary\n ${[...this.#binary].join('\n ')}\nEnd\n`;
  }
}

/** A problem without the actions that can never be of use, and what both models ask of it. */
interface Prepared {
  readonly actions: readonly NeutralAction[];
  readonly givers: ReadonlyMap<string, readonly number[]>;
  /** For each action, a number that it shares with those it forms a cycle with. */
  readonly cycle: readonly number[];
  readonly pickup: readonly number[];
  readonly tool: readonly number[];
}

const milliseconds = (seconds: number): number => Math.round(seconds * 1000);

const giversOf = (actions: readonly NeutralAction[]): Map<string, number[]> => {
  const givers = new Map<string, number[]>();
  actions.forEach((action, index) => {
    for (const fact of action.gives) givers.set(fact, [...(givers.get(fact) ?? []), index]);
  });
  return givers;
};

const wantedActions = (problem: NeutralProblem): NeutralAction[] => {
  const reached = new Set<string>();
  let able: NeutralAction[] = [];
  for (let before = -1; before !== able.length; ) {
    before = able.length;
    able = problem.actions.filter(({ needs }) => needs.every((fact) => reached.has(fact)));
    for (const action of able) for (const fact of action.gives) reached.add(fact);
  }
  const wanted = new Set(problem.target);
  for (let before = -1; before !== wanted.size; ) {
    before = wanted.size;
    for (const action of able)
      if (action.gives.some((fact) => wanted.has(fact))) for (const fact of action.needs) wanted.add(fact);
  }
  return able.filter(({ gives }) => gives.some((fact) => wanted.has(fact)));
};

const cyclesOf = (actions: readonly NeutralAction[], givers: ReadonlyMap<string, readonly number[]>): number[] => {
  const behind = actions.map((_, start) => {
    const seen = new Set<number>();
    const stack = [start];
    for (let at = stack.pop(); at !== undefined; at = stack.pop())
      for (const fact of actions[at]?.needs ?? [])
        for (const giver of givers.get(fact) ?? [])
          if (!seen.has(giver)) {
            seen.add(giver);
            stack.push(giver);
          }
    return seen;
  });
  return actions.map((_, a) => actions.findIndex((_, b) => b === a || (behind[a]?.has(b) && behind[b]?.has(a))));
};

/** Keeps what can be reached and is wanted; finds cycles. Expects plain pick-ups: no changeover table. */
export const prepareForModel = (problem: NeutralProblem): Prepared => {
  const actions = wantedActions(problem);
  const givers = giversOf(actions);
  const pickup = problem.tools.map((tool) => milliseconds(tool.pickupSeconds));
  const tool = actions.map((action) => problem.tools.findIndex(({ id }) => id === action.tool));
  return { actions, givers, cycle: cyclesOf(actions, givers), pickup, tool };
};

/** Inside a cycle each need of a chosen action has a witness, and numbers rise along witnesses (Miller-Tucker-Zemlin). */
const addWitnesses = (model: Model, prepared: Prepared, chosen: (action: number) => string): void => {
  const { actions, givers, cycle } = prepared;
  const most = actions.length;
  actions.forEach((action, a) => {
    for (const [n, fact] of action.needs.entries()) {
      const list = givers.get(fact) ?? [];
      if (!list.some((giver) => giver !== a && cycle[giver] === cycle[a])) continue;
      const witnesses = list
        .filter((giver) => giver !== a)
        .map((giver) => {
          const witness = model.binary(`w${a}_${n}_${giver}`);
          model.atLeast(
            [
              [1, chosen(giver)],
              [-1, witness],
            ],
            0,
          );
          if (cycle[giver] === cycle[a]) {
            const [mine, other] = [model.level(`l${a}`, most), model.level(`l${giver}`, most)];
            model.atLeast(
              [
                [1, mine],
                [-1, other],
                [-(most + 1), witness],
              ],
              -most,
            );
          }
          return witness;
        });
      model.atLeast([...witnesses.map((witness) => [1, witness] as const), [-1, chosen(a)]], 0);
    }
  });
};

/** The set model: which actions hold themselves up at least cost, each used tool paid once, order ignored? */
export const setModel = (prepared: Prepared, target: readonly string[]): string => {
  const { actions, givers, pickup, tool } = prepared;
  const model = new Model();
  const chosen = (action: number): string => model.binary(`x${action}`);
  actions.forEach((action, a) => {
    model.cost(milliseconds(action.seconds), chosen(a));
    if ((tool[a] ?? -1) >= 0)
      model.atLeast(
        [
          [1, model.binary(`u${tool[a]}`)],
          [-1, chosen(a)],
        ],
        0,
      );
    for (const fact of action.needs)
      model.atLeast([...(givers.get(fact) ?? []).map((giver) => [1, chosen(giver)] as const), [-1, chosen(a)]], 0);
  });
  for (const used of new Set(tool)) if (used >= 0) model.cost(pickup[used] ?? 0, `u${used}`);
  for (const fact of target)
    model.atLeast(
      (givers.get(fact) ?? []).map((giver) => [1, chosen(giver)] as const),
      1,
    );
  addWitnesses(model, prepared, chosen);
  return model.text();
};

/** How long may a plan be in tool sessions, given a plan's cost and the set model's optimum [ms]? */
export interface SessionRoom {
  readonly known: number;
  readonly leastSet: number;
}

/**
 * The session model: time cut into tool sessions, `d` of an action and a session says "done by the end of it". Exact for
 * plans that cost no more than the known one, since these can't repeat more pick-ups than the difference pays for.
 */
export const sessionModel = (prepared: Prepared, target: readonly string[], room: SessionRoom): string => {
  const { actions, givers, pickup, tool } = prepared;
  const used = [...new Set(tool)].filter((t) => t >= 0).sort((a, b) => a - b);
  const cheapest = Math.min(...used.map((t) => pickup[t] ?? 0));
  const repeats = Math.max(0, Math.floor((room.known - room.leastSet) / cheapest));
  const last = used.length + repeats;
  const model = new Model();
  const done = (action: number, session: number): string => model.binary(`d${action}_${session}`);
  const held = (t: number, session: number): string => model.binary(`y${t}_${session}`);
  actions.forEach((action, a) => {
    model.cost(milliseconds(action.seconds), done(a, last));
    for (let s = 0; s <= last; s++) {
      const before = s === 0 ? [] : ([[1, done(a, s - 1)]] as const);
      if (s > 0)
        model.atLeast(
          [
            [1, done(a, s)],
            [-1, done(a, s - 1)],
          ],
          0,
        );
      const t = tool[a] ?? -1;
      if (t >= 0 && s === 0) model.fixToZero(done(a, 0));
      else if (t >= 0) model.atLeast([[1, held(t, s)], ...before, [-1, done(a, s)]], 0);
      for (const fact of action.needs)
        model.atLeast([...(givers.get(fact) ?? []).map((giver) => [1, done(giver, s)] as const), [-1, done(a, s)]], 0);
    }
  });
  addSessions(model, { used, last, repeats, pickup });
  for (const fact of target)
    model.atLeast(
      (givers.get(fact) ?? []).map((giver) => [1, done(giver, last)] as const),
      1,
    );
  addWitnesses(model, prepared, (action) => done(action, last));
  addWitnessTimes(model, prepared, last);
  return model.text();
};

/** A witness inside a cycle is done no later than what it is the witness for. */
const addWitnessTimes = (model: Model, { actions, givers, cycle }: Prepared, last: number): void => {
  actions.forEach((action, a) => {
    for (const [n, fact] of action.needs.entries()) {
      const list = givers.get(fact) ?? [];
      if (!list.some((giver) => giver !== a && cycle[giver] === cycle[a])) continue;
      for (const giver of list)
        for (let s = 0; s < last && giver !== a; s++)
          model.atLeast(
            [
              [1, `d${giver}_${s}`],
              [-1, `d${a}_${s}`],
              [-1, `w${a}_${n}_${giver}`],
            ],
            -1,
          );
    }
  });
};

const addSessions = (
  model: Model,
  room: { used: readonly number[]; last: number; repeats: number; pickup: readonly number[] },
): void => {
  const { used, last, repeats, pickup } = room;
  const all: (readonly [number, string])[] = [];
  for (let s = 1; s <= last; s++) {
    for (const t of used) {
      model.cost(pickup[t] ?? 0, `y${t}_${s}`);
      all.push([-1, `y${t}_${s}`]);
      model.atLeast(
        [
          [1, model.binary(`u${t}`)],
          [-1, model.binary(`y${t}_${s}`)],
        ],
        0,
      );
      if (s < last)
        model.atLeast(
          [
            [-1, `y${t}_${s}`],
            [-1, `y${t}_${s + 1}`],
          ],
          -1,
        );
    }
    const here = used.map((t) => [1, `y${t}_${s}`] as const);
    model.atLeast(
      used.map((t) => [-1, `y${t}_${s}`] as const),
      -1,
    );
    if (s < last) model.atLeast([...here, ...used.map((t) => [-1, `y${t}_${s + 1}`] as const)], 0);
  }
  model.atLeast([...all, ...used.map((t) => [1, `u${t}`] as const)], -repeats);
};
