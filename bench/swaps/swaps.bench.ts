// How long does a plan of swaps take at the bench against the fixed full protocol and against one part at a time, on the same
// simulated devices, and how long does it take to work out? 12 parts, 2 specimens, 2 firmware versions.
// Usage: npm run bench -- swaps   (UNFASTEN_BENCH_DEVICES sets the number of devices)

import { diagnoseAll } from '../../src/swaps/diagnosis/diagnose.ts';
import type { SwapRun } from '../../src/swaps/model/swap-run.ts';
import { nextFrom } from '../../src/swaps/plan/next-run.ts';
import { PLAN_LIMITS } from '../../src/swaps/plan/plan-limits.ts';
import { planInStages, type SwapPlan } from '../../src/swaps/plan/plan-swaps.ts';
import { Planner } from '../../src/swaps/plan/planner.ts';
import type { SwapProblem } from '../../src/swaps/plan/swap-problem.ts';
import type { SimulatedDevice } from '../../src/swaps/simulate/answer-run.ts';
import { fullProtocolStarts } from './full-protocol-starts.ts';
import { drawDevice, swapProblem } from './make-device.ts';
import { type Answering, answered, planned, startSeconds } from './work-device.ts';

const SEED = 20_261_125;
const DEVICES = Number(process.env.UNFASTEN_BENCH_DEVICES ?? 40);
const problem = swapProblem();
const limits = { ...PLAN_LIMITS, states: 0 };

interface Tally {
  minutes: number;
  starts: number;
  decided: number;
  wrong: number;
  open: number;
}

const tally = (): Tally => ({ minutes: 0, starts: 0, decided: 0, wrong: 0, open: 0 });

/** Counts what the diagnosis decides; a decision is wrong when it is not what the device hides. */
const count = (into: Tally, runs: readonly SwapRun[], device: SimulatedDevice): void => {
  const byPart = new Map(problem.parts.map(({ id }) => [id, runs.filter(({ part }) => part === id)]));
  for (const [part, { decided }] of diagnoseAll(byPart, { firmware: problem.firmware })) {
    if (decided === undefined) into.open++;
    else {
      into.decided++;
      const truth = device.truths.get(part)?.explanation;
      if (decided !== truth && !(truth === 'handling-damage' && decided === 'accepted')) into.wrong++;
    }
  }
};

const byPlan = (
  of: SwapProblem,
  planner: Planner,
  at: Answering,
): { runs: readonly SwapRun[]; minutes: number; starts: number } => {
  const runs: SwapRun[] = [];
  let [minutes, starts] = [0, 0];
  for (;;) {
    const begun = performance.now();
    const { run } = nextFrom(planner, runs);
    choosing.push(performance.now() - begun);
    if (!run) return { runs, minutes, starts };
    minutes += run.seconds / 60;
    runs.push(...answered(of, planned(of, run), { ...at, order: ++starts, earlier: runs }));
  }
};

const choosing: number[] = [];
const [plan, controlled, alone, protocol, together] = [tally(), tally(), tally(), tally(), tally()];
const withControls = { ...problem, refitControl: true };
const controlling = new Planner(withControls, limits);
const planner = new Planner(problem, limits);
const solo = problem.parts.map((part) => {
  const of = { ...problem, parts: [part] };
  return { of, planner: new Planner(of, limits) };
});
for (let index = 0; index < DEVICES; index++) {
  const device = drawDevice(problem, SEED + index);
  const at = (): Answering => ({ device, seed: SEED + index });
  const ofPlan = byPlan(problem, planner, at());
  plan.minutes += ofPlan.minutes;
  plan.starts += ofPlan.starts;
  count(plan, ofPlan.runs, device);
  const ofControlled = byPlan(withControls, controlling, at());
  controlled.minutes += ofControlled.minutes;
  controlled.starts += ofControlled.starts;
  count(controlled, ofControlled.runs, device);
  const apart = solo.map(({ of, planner: own }) => byPlan(of, own, at()));
  alone.minutes += apart.reduce((sum, { minutes }) => sum + minutes, 0);
  alone.starts += apart.reduce((sum, { starts }) => sum + starts, 0);
  count(
    alone,
    apart.flatMap(({ runs }) => runs),
    device,
  );
  for (const [into, isTogether] of [
    [protocol, false],
    [together, true],
  ] as const) {
    const runs: SwapRun[] = [];
    for (const [place, start] of fullProtocolStarts(problem, isTogether).entries()) {
      into.minutes += startSeconds(problem, start) / 60;
      into.starts++;
      runs.push(...answered(problem, start.fits, { ...at(), order: place + 1, earlier: runs }));
    }
    count(into, runs, device);
  }
}

const row = (what: string, { minutes, starts, decided, wrong, open }: Tally): string =>
  `| ${what} | ${(minutes / DEVICES).toFixed(0)} | ${(starts / DEVICES).toFixed(1)} | ${(decided / DEVICES).toFixed(2)} | ${(open / DEVICES).toFixed(2)} | ${wrong} | ${((60 * minutes) / decided / 60).toFixed(1)} | ${(plan.minutes / minutes).toFixed(2)} |`;

console.log(`12 parts, 2 specimens, 2 firmware versions; ${DEVICES} devices drawn from the odds, seed ${SEED}.\n`);
console.log(
  '| way | bench minutes | starts | parts decided | undecided | wrong decisions in all | minutes per decision | the plan against it |',
);
console.log('| --- | --- | --- | --- | --- | --- | --- | --- |');
console.log(row('the plan', plan));
console.log(row('the plan with refit controls in both specimens', controlled));
console.log(row('one part at a time, each by its own plan', alone));
console.log(row('fixed full protocol, part by part', protocol));
console.log(row('fixed full protocol, all parts in each start', together));

const stages = planInStages(problem);
const until: number[] = [];
const begun = performance.now();
let whole: SwapPlan | undefined;
while (!whole) {
  const { done, value } = stages.next();
  until.push(performance.now() - begun);
  if (done) whole = value;
}
const sheet = whole;
choosing.sort((a, b) => a - b);
const at = (share: number): string => (choosing[Math.floor(share * (choosing.length - 1))] ?? 0).toFixed(1);
console.log('\n| what | ms | target [ms] |\n| --- | --- | --- |');
const named = [
  'run sheet',
  'and its length, with bound',
  'and what stays undecided',
  'and what one more specimen would tell',
];
for (const [index, name] of named.entries()) console.log(`| plan: ${name} | ${until[index]?.toFixed(0)} | 2000 |`);
console.log(`| next run, median of ${choosing.length} | ${at(0.5)} | 100 |`);
console.log(`| next run, 95th of 100 | ${at(0.95)} | 100 |`);
console.log(`| next run, slowest | ${at(1)} | 100 |`);
console.log(
  `\nBy its own odds the plan takes ${sheet.expected.minutes.toFixed(0)} min (standard error ${sheet.expected.standardError.toFixed(0)}, ${sheet.expected.cases} cases); with undecided parts counted, no plan takes less than ${sheet.bound.atLeastMinutes.toFixed(0)} min and this one ${sheet.bound.thisMinutes.toFixed(0)}.`,
);
