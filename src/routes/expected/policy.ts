import type { SolvedStates } from './and-or.ts';
import type { MoveChoice, PlanSetting } from './choices.ts';
import type { MoveMember } from './moves.ts';
import type { WorkState } from './work-state.ts';

/** How may work end? At the target, with a damage, or with every way exhausted. */
export type WorkEnd = 'reached' | 'damaged' | 'stranded';

/** Where does a policy go next? A node of it by index, or an end. */
export type PolicyNext = number | Exclude<WorkEnd, 'damaged'>;

/** One action of a policy. Damage ends the work; what is missing from 1 is a failure, after which the way is exhausted. */
export interface PolicyNode {
  /** Id of the problem's action. */
  readonly action: string;
  /** Work and taking up tools at this point [ms]. */
  readonly milliseconds: number;
  readonly success: number;
  readonly damage: number;
  readonly onSuccess: PolicyNext;
  /** Undefined when it cannot fail. */
  readonly onFailure: PolicyNext | undefined;
}

/** What to do, whatever comes of it. No node leads back to an earlier one on its path. */
export interface Policy {
  readonly start: PolicyNext;
  readonly nodes: readonly PolicyNode[];
}

/** Which choices make up a policy, in every state that it can come to from `root`? Each such state must be solved. */
export const policyOf = (
  setting: PlanSetting,
  root: WorkState,
  solved: SolvedStates<WorkState, MoveChoice>,
): Policy => {
  const draft: Draft = { setting, nodes: [], entries: new Map(), solved };
  const start = enter(draft, root);
  return { start, nodes: draft.nodes };
};

interface Draft {
  readonly setting: PlanSetting;
  readonly nodes: PolicyNode[];
  readonly entries: Map<string, PolicyNext>;
  readonly solved: SolvedStates<WorkState, MoveChoice>;
}

const enter = (draft: Draft, state: WorkState): PolicyNext => {
  if (state.kind !== 'working') return state.kind;
  const known = draft.entries.get(state.key);
  if (known !== undefined) return known;
  const solved = draft.solved.get(state.key);
  if (!solved) throw new RangeError('a policy comes to a state for which nothing was chosen');
  const entry = chain(draft, state, solved.choice);
  draft.entries.set(state.key, entry);
  return entry;
};

/** The nodes of one choice: what a member's failure leads to is what the failure of the whole leads to. */
const chain = (draft: Draft, state: WorkState, choice: MoveChoice): PolicyNext => {
  const [succeeded, failed] = choice.children[0] ?? [];
  if (!succeeded) throw new RangeError('a choice of work leads nowhere');
  const onFailure = failed && enter(draft, failed.state);
  let next = enter(draft, succeeded.state);
  const { pickup } = draft.setting.table;
  const moveMembers = choice.move?.members ?? [];
  const first = moveMembers.find((member) => member.firstTools > 0);
  for (const member of [...choice.run.flatMap((move) => move.members), ...moveMembers].reverse()) {
    const taking = member === first ? (pickup[state.held]?.[member.firstTools] ?? 0) : 0;
    draft.nodes.push(nodeOf(member, { taking, next, onFailure }));
    next = draft.nodes.length - 1;
  }
  return next;
};

const nodeOf = (
  { action, milliseconds, success, damage }: MoveMember,
  place: { readonly taking: number; readonly next: PolicyNext; readonly onFailure: PolicyNext | undefined },
): PolicyNode => {
  const canFail = 1 - success - damage > 1e-12;
  return {
    action: action.id,
    milliseconds: milliseconds + place.taking,
    success,
    damage,
    onSuccess: place.next,
    onFailure: canFail ? (place.onFailure ?? 'stranded') : undefined,
  };
};

/** What does following a policy come to? Expected work without losses [ms] and the chance of each end. */
export interface PolicyFigures {
  readonly workMilliseconds: number;
  readonly chances: Readonly<Record<WorkEnd, number>>;
}

/** What does following a policy come to? Every node leads only to nodes before it in the list, so one pass does. */
export const policyFigures = (policy: Policy): PolicyFigures => {
  const figures: PolicyFigures[] = [];
  const at = (next: PolicyNext | undefined): PolicyFigures =>
    (typeof next === 'number' ? figures[next] : undefined) ?? ended(next === 'stranded' ? 'stranded' : 'reached');
  for (const node of policy.nodes) {
    const success = at(node.onSuccess);
    const failure = at(node.onFailure);
    const failing = node.onFailure === undefined ? 0 : 1 - node.success - node.damage;
    const mix = (pick: (figures: PolicyFigures) => number): number =>
      node.success * pick(success) + failing * pick(failure);
    figures.push({
      workMilliseconds: node.milliseconds + mix((one) => one.workMilliseconds),
      chances: {
        reached: mix(({ chances }) => chances.reached),
        stranded: mix(({ chances }) => chances.stranded),
        damaged: node.damage + mix(({ chances }) => chances.damaged),
      },
    });
  }
  return at(policy.start);
};

const ended = (end: WorkEnd): PolicyFigures => ({
  workMilliseconds: 0,
  chances: { reached: 0, damaged: 0, stranded: 0, [end]: 1 },
});
