import { EXPLANATIONS, type Explanation } from '../model/explanation.ts';
import type { Suspicion } from '../model/suspicion.ts';
import type { RunSetting } from '../model/swap-run.ts';
import { type Allowed, agrees } from '../signature/allowed.ts';
import { type PlacedRun, placeRuns } from '../signature/placed-run.ts';
import { predictRun } from '../signature/predict.ts';
import { suspicionsOf } from '../signature/suspicions-of.ts';
import { formOf, historyKey } from './history-key.ts';
import { type MadeRun, type Seen, troubleSeen } from './made-run.ts';

/** What is known of one part after its runs. Two beliefs of one graph that foretell the same are one object. */
export interface Belief {
  readonly id: number;
  readonly runs: readonly MadeRun[];
  /** Explanations that agree with every run, in the order of the list of explanations. */
  readonly standing: readonly Explanation[];
  /** Was something the matter in a run that was seen? */
  readonly troubled: boolean;
  /** Hosts in which a foreign piece was seen. */
  readonly triedIn: readonly string[];
}

/** A suspicion that stands before a run, and what the run typically shows if it is true. */
export interface Foretold {
  readonly suspicion: Suspicion;
  readonly shows: Seen;
}

/** What follows from one more run: what each suspicion foretells, and what is known after each outcome that one of them does. */
export interface Step {
  readonly foretold: readonly Foretold[];
  readonly next: ReadonlyMap<Seen, Belief>;
  /**
   * Would the run exclude something that stood before it, by what one of these typically shows, or is it the first foreign piece in a
   * host? What the run itself may spoil does not count.
   */
  readonly tells: boolean;
}

/** A number for one more run after a belief: `key` is below 2^20, so that some thousand million beliefs stay apart. */
export const stepKey = (belief: Belief, key: number): number => belief.id * 2 ** 20 + key;

/**
 * Which beliefs can be reached by which runs? Worked out when asked for and kept. Nothing in it depends on odds, so that parts
 * whose pieces and firmware are alike share one.
 */
export class BeliefGraph {
  readonly #firmware: readonly string[];
  readonly #known = new Map<string, Belief>();
  /** By belief: the suspicions considered so far, and whether each stands. */
  readonly #considered = new Map<number, ReadonlyMap<string, boolean>>();
  readonly #steps = new Map<number, Step>();
  readonly #unseen = new Map<number, Belief>();

  constructor(firmware: readonly string[]) {
    this.#firmware = firmware;
  }

  /** How many different beliefs were met so far? */
  get size(): number {
    return this.#known.size;
  }

  /** What is known after these runs, in their order? */
  after(runs: readonly MadeRun[]): Belief {
    const ordered = runs.map((run, index) => ({ ...run, order: index + 1 }));
    const placed = placeRuns(ordered);
    const all = suspicionsOf(ordered, this.#firmware).suspicions;
    return this.#intern(
      ordered,
      all.map((suspicion) => [suspicion, this.#stands(suspicion, ordered, placed)]),
    );
  }

  /** What follows from a further run in these circumstances? `key` names them. */
  step(belief: Belief, setting: () => RunSetting, key: number): Step {
    const at = stepKey(belief, key);
    const kept = this.#steps.get(at);
    if (kept) return kept;
    const step = this.#made(belief, setting());
    this.#steps.set(at, step);
    return step;
  }

  /** What is known after a further run that another part hid? `key` names its circumstances. */
  unseen(belief: Belief, setting: () => RunSetting, key: number): Belief {
    const at = stepKey(belief, key);
    const kept = this.#unseen.get(at);
    if (kept) return kept;
    const next = this.after([...belief.runs, { ...setting(), order: 0, outcome: 'unseen' }]);
    this.#unseen.set(at, next);
    return next;
  }

  #made(belief: Belief, setting: RunSetting): Step {
    const planned = { ...setting, order: belief.runs.length + 1 };
    const placed = placeRuns([...belief.runs, planned]);
    const last = placed.at(-1);
    const before = this.#considered.get(belief.id);
    const usual: Usual = {
      isOwn: setting.isOwn,
      trouble: troubleSeen(belief.runs),
      same: seenAsIs(belief.runs, planned),
    };
    const all = suspicionsOf([...belief.runs, planned], this.#firmware).suspicions;
    if (!last) return { foretold: [], next: new Map(), tells: false };
    const looked = all.map((suspicion) => ({
      suspicion,
      stands: before?.get(nameOf(suspicion)) ?? this.#stands(suspicion, belief.runs, placed),
      allowed: predictRun(suspicion, last, this.#firmware),
    }));
    const foretold = unlike(
      looked.flatMap(({ suspicion, stands, allowed }) =>
        stands ? [{ suspicion, shows: typically(allowed, usual) }] : [],
      ),
    );
    const next = new Map<Seen, Belief>();
    for (const outcome of new Set(foretold.map(({ shows }) => shows))) {
      const runs = [...belief.runs, { ...planned, outcome }];
      // What is suspected at all may hang on what was seen: an own part in trouble at home, a circumstance that nothing points to.
      const isNewSuspect = (setting.isOwn && outcome !== 'passed') || all.some(isCircumstance);
      const known = looked.map(
        ({ suspicion, stands, allowed }) => [suspicion, stands && agrees(allowed, outcome)] as const,
      );
      next.set(outcome, isNewSuspect ? this.after(runs) : this.#intern(runs, known));
    }
    const stood = looked.filter(({ suspicion }) => before?.get(nameOf(suspicion)));
    const isNewHost = !setting.isOwn && !belief.triedIn.includes(setting.host);
    const outcomes = new Set(stood.map(({ allowed }) => typically(allowed, usual)));
    const tells = isNewHost || [...outcomes].some((outcome) => stood.some(({ allowed }) => !agrees(allowed, outcome)));
    return { foretold, next, tells };
  }

  #intern(runs: readonly MadeRun[], all: readonly (readonly [Suspicion, boolean])[]): Belief {
    const left = all.filter(([, stands]) => stands).map(([suspicion]) => suspicion);
    const key = historyKey(left, runs);
    const kept = this.#known.get(key);
    if (kept) return kept;
    const stands = new Set(left.map(({ explanation }) => explanation));
    const made: Belief = {
      id: this.#known.size,
      runs,
      standing: EXPLANATIONS.filter((explanation) => stands.has(explanation)),
      troubled: runs.some(({ outcome }) => outcome === 'failed' || outcome === 'reduced'),
      triedIn: [...new Set(runs.filter((run) => !run.isOwn && run.outcome !== 'unseen').map(({ host }) => host))],
    };
    this.#known.set(key, made);
    this.#considered.set(made.id, new Map(all.map(([suspicion, isLeft]) => [nameOf(suspicion), isLeft])));
    return made;
  }

  #stands(suspicion: Suspicion, runs: readonly MadeRun[], placed: readonly PlacedRun[]): boolean {
    return runs.every(({ outcome }, index) => {
      const at = placed[index];
      return outcome === 'unseen' || !at || agrees(predictRun(suspicion, at, this.#firmware), outcome);
    });
  }
}

/** What is usual for a run: whose part it is, how trouble showed before, and what was seen when it was looked at just so. */
interface Usual {
  readonly isOwn: boolean;
  readonly trouble: Seen;
  readonly same: Seen | undefined;
}

/**
 * What does a run typically show where more than one outcome is allowed? A plan reckons with it; what is seen may differ, and is then
 * taken as it is. What was done just so before shows what it did then; an own part is taken to pass, a foreign one to
 * fail, or to be reduced where trouble showed so before.
 */
const typically = (allowed: Allowed, { isOwn, trouble, same }: Usual): Seen => {
  const [only, other] = allowed;
  if (only !== undefined && other === undefined) return only;
  if (same !== undefined && allowed.includes(same)) return same;
  if (!allowed.includes('failed')) return 'passed';
  return allowed.includes('passed') && isOwn ? 'passed' : trouble;
};

/** What did the same show when it was last done? Of a mere look, whatever was done to the host last, if that left it so. */
const seenAsIs = (runs: readonly MadeRun[], planned: RunSetting): Seen | undefined => {
  const seen = runs.filter(({ host, outcome }) => host === planned.host && outcome !== 'unseen');
  const last = planned.handled ? seen.findLast((run) => run.handled && isAlike(run, planned)) : seen.at(-1);
  return last && isAlike(last, planned) && last.outcome !== 'unseen' ? last.outcome : undefined;
};

const isAlike = (run: RunSetting, planned: RunSetting): boolean =>
  run.piece.key === planned.piece.key &&
  run.firmware === planned.firmware &&
  run.authorised === planned.authorised &&
  run.calibrated === planned.calibrated &&
  run.identityMoved === planned.identityMoved;

/** Forms that foretell the same and differ in when they set in count once. */
const unlike = (all: readonly Foretold[]): readonly Foretold[] => [
  ...new Map(all.map((one) => [`${formOf(one.suspicion)} ${one.shows}`, one])).values(),
];

const isCircumstance = ({ explanation }: Suspicion): boolean =>
  explanation === 'revision-mismatch' || explanation === 'donor-home-locked';

const nameOf = ({ explanation, piece, damagedFrom, lastFirmware, misread }: Suspicion): string =>
  `${explanation} ${piece ?? lastFirmware ?? misread ?? ''}${damagedFrom ? JSON.stringify(damagedFrom) : ''}`;
