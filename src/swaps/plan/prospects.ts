import { EXPLANATIONS, type Explanation } from '../model/explanation.ts';
import type { Foretold } from './belief-graph.ts';
import { never, settingKey, settingOf } from './bench-setup.ts';
import { type BenchRun, type BenchState, benchAfter, matingsLeft } from './bench-state.ts';
import { followPlan } from './follow-plan.ts';
import type { Seen } from './made-run.ts';
import type { PlanLimits } from './plan-limits.ts';
import { Planner, PlanTables } from './planner.ts';
import { outlooksOf, whenSeen } from './run-branches.ts';
import { stateAfter } from './start-state.ts';
import type { PlannedPart, SwapProblem } from './swap-problem.ts';

/** How a part ends when one explanation is the truth and every run shows what it typically does. */
export interface Prospect {
  readonly part: string;
  readonly truth: Explanation;
  /** What then stands at the end; one explanation is a decision. */
  readonly standing: readonly Explanation[];
  /** What is missing to tell these apart; empty when decided. */
  readonly missing: readonly Missing[];
}

/** What a bench may lack to tell explanations apart. */
export type Missing =
  | 'authorised-step'
  | 'calibration'
  | 'newer-firmware'
  | 'other-specimen'
  | 'revisions'
  | 'home-lock'
  | 'matings'
  | 'foreign-piece';

/** Runs looked ahead here: what can be told in the end hangs less on their order than what they cost. */
const AHEAD = 1;

/**
 * Which truths can the bench tell, for each part? Each part alone, followed to the end for each explanation that can arise. All are
 * followed at the same costs: what can be told at last does not hang on them, and parts that are offered the same are then one case.
 */
export const prospects = (problem: SwapProblem, limits: PlanLimits, tables = new PlanTables()): readonly Prospect[] => {
  const known = new Map<string, readonly Omit<Prospect, 'part'>[]>();
  return problem.parts.flatMap((part) => {
    const alone = aloneWith(problem, part);
    const key = JSON.stringify(alone).replaceAll(JSON.stringify(part.id), '""');
    const found = known.get(key) ?? prospectsAlone(alone, limits, tables);
    known.set(key, found);
    return found.map((one) => ({ part: part.id, ...one }));
  });
};

const aloneWith = (problem: SwapProblem, part: PlannedPart): SwapProblem => ({
  ...problem,
  parts: [
    {
      ...part,
      layers: [LAYER],
      fitSeconds: EACH_SECONDS,
      checkSeconds: EACH_SECONDS,
      ...(part.authoriseSeconds === undefined ? {} : { authoriseSeconds: EACH_SECONDS }),
      ...(part.calibrateSeconds === undefined ? {} : { calibrateSeconds: EACH_SECONDS }),
      ...(part.identitySeconds === undefined ? {} : { identitySeconds: EACH_SECONDS }),
    },
  ],
  layers: { [LAYER]: { openSeconds: EACH_SECONDS, closeSeconds: EACH_SECONDS } },
  donors: problem.donors.filter((donor) => donor.part === part.id),
  hosts: problem.hosts.map((host) => ({
    ...host,
    revisions: Object.fromEntries(Object.entries(host.revisions ?? {}).filter(([id]) => id === part.id)),
  })),
});

/** What every act takes in these plans [s]. */
const EACH_SECONDS = 60;
const LAYER = 'layer';

const prospectsAlone = (
  problem: SwapProblem,
  limits: PlanLimits,
  tables: PlanTables,
): readonly Omit<Prospect, 'part'>[] => {
  let planner = new Planner(problem, { ...limits, states: 0, ahead: AHEAD }, tables);
  return EXPLANATIONS.flatMap((truth) => {
    planner = planner.lightened();
    const start = stateAfter(planner.setup, []);
    let arises = false;
    const followed = followPlan(planner, start, (state, run) => {
      const led = asTruth(planner, state, { run, truth });
      arises ||= led.arises;
      return led.state;
    });
    const end = followed.at(-1)?.after ?? start;
    const standing = end.parts[0]?.belief.standing ?? [];
    if (!arises || !standing.includes(truth)) return [];
    const isWorn = isWornOut(planner, end);
    return [{ truth, standing, missing: standing.length > 1 ? missingFor(problem, { standing, isWorn }) : [] }];
  });
};

/** Where does a run lead if this explanation is the truth? Trouble sets in as soon as one of its forms foretells it. */
const asTruth = (
  planner: Planner,
  state: BenchState,
  { run, truth }: { run: BenchRun; truth: Explanation },
): { readonly state: BenchState; readonly arises: boolean } => {
  const { setup } = planner;
  const [choice] = run.choices;
  const part = setup.parts[0] ?? never();
  const belief = (state.parts[0] ?? never()).belief;
  const outlooks = outlooksOf(setup, state, run);
  if (!choice || !outlooks[0]) return { state: benchAfter(setup, state, run), arises: false };
  const placed = { part: 0, host: run.host, firmware: run.firmware, choice };
  const step = part.beliefs.graph.step(belief, () => settingOf(setup, placed), settingKey(placed));
  const of = step.foretold.filter(({ suspicion }) => suspicion.explanation === truth);
  const shows = shownBy(of, belief.troubled);
  const branches = outlooks[0].branches;
  const shown =
    branches.find(({ outcome }) => outcome === shows) ?? branches.find(({ outcome }) => outcome === 'passed');
  const after = whenSeen(benchAfter(setup, state, run), run, { outlooks, shown: [shown ?? branches[0] ?? never()] });
  return { state: after, arises: of.length > 0 };
};

const shownBy = (forms: readonly Foretold[], troubled: boolean): Seen | undefined => {
  const trouble = forms.find(({ shows }) => shows !== 'passed');
  return troubled ? forms[0]?.shows : (trouble ?? forms[0])?.shows;
};

/** Is there a host whose connector, or whose own piece, may be mated no more? */
const isWornOut = ({ setup }: Planner, { parts, hosts }: BenchState): boolean => {
  const [part, state] = [setup.parts[0] ?? never(), parts[0] ?? never()];
  return setup.problem.hosts.some(
    ({ id }, index) =>
      matingsLeft(part, state.worn, { host: id, hostIndex: index, piece: index, hosts: hosts.length }) <= 0,
  );
};

/** What would tell these explanations apart that the bench does not have? */
const missingFor = (
  problem: SwapProblem,
  { standing, isWorn }: { readonly standing: readonly Explanation[]; readonly isWorn: boolean },
): readonly Missing[] => {
  const has = (...any: readonly Explanation[]): boolean => any.some((one) => standing.includes(one));
  const [part] = problem.parts;
  const paired = has('pairing-reversible', 'pairing-latching');
  const checks: readonly (readonly [Missing, boolean])[] = [
    ['foreign-piece', problem.hosts.length + problem.donors.length < 2],
    [
      'authorised-step',
      paired &&
        has('unfixed-bug', 'firmware-bug', 'bad-donor', 'donor-home-locked') &&
        part?.authoriseSeconds === undefined,
    ],
    ['calibration', has('missing-calibration') && part?.calibrateSeconds === undefined],
    ['newer-firmware', has('unfixed-bug') && problem.firmware.length < 2],
    ['other-specimen', problem.hosts.length < 2 || has('bad-donor', 'handling-damage')],
    [
      'revisions',
      has('revision-mismatch') && problem.hosts.some(({ revisions }) => revisions?.[part?.id ?? ''] === undefined),
    ],
    ['home-lock', has('donor-home-locked')],
    ['matings', isWorn],
  ];
  return checks.flatMap(([missing, lacks]) => (lacks ? [missing] : []));
};
