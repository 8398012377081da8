import { EXPLANATIONS, type Explanation } from '../model/explanation.ts';
import type { Suspicion } from '../model/suspicion.ts';
import type { RunSetting } from '../model/swap-run.ts';
import { type Allowed, agrees } from '../signature/allowed.ts';
import { type OrderedSetting, type PlacedRun, placeRuns } from '../signature/placed-run.ts';
import { predictRun } from '../signature/predict.ts';
import { broughtUpBy, CIRCUMSTANCES, suspicionsOf } from '../signature/suspicions-of.ts';
import { formOf, historyKey } from './history-key.ts';
import { controlledHosts, type MadeRun, type Seen } from './made-run.ts';
import { typically, usualFor } from './usual-outcome.ts';

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
  /** Foreign pieces that were seen, by key. */
  readonly triedPieces: readonly string[];
  /** Hosts in which the own part was seen after it had been taken out and put back, before any foreign piece. */
  readonly controlledIn: readonly string[];
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
}

/** A number for one more run after a belief: `key` is below 2^20, so that some thousand million beliefs stay apart. */
export const stepKey = (belief: Belief, key: number): number => belief.id * 2 ** 20 + key;

/** What a belief keeps for the runs to come. */
interface Mind {
  /** Suspicions that agree with every run, one of each form. */
  readonly standing: readonly Suspicion[];
  /** Forms of those that last and were weighed, standing or not, in alphabetical order: what is excluded stays so. */
  readonly weighed: readonly string[];
  /** Circumstances that some run gave ground for; they are weighed only once there is trouble to explain. */
  readonly circumstances: readonly Suspicion[];
}

/**
 * Which beliefs can be reached by which runs? Worked out when asked for and kept. Nothing in it depends on odds, so that parts
 * whose pieces and firmware are alike share one.
 */
export class BeliefGraph {
  readonly #firmware: readonly string[];
  readonly #known = new Map<string, Belief>();
  readonly #minds = new Map<number, Mind>();
  readonly #steps = new Map<number, Step>();
  readonly #tells = new Map<number, boolean>();
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
    const { suspicions } = suspicionsOf(ordered, this.#firmware);
    const raised = placed.flatMap((at, index) => broughtUpBy(ordered[index] ?? at.run, at, this.#firmware));
    return this.#intern(ordered, {
      standing: oneOfEachForm(suspicions.filter((one) => this.#stands(one, ordered, placed))),
      weighed: withForms([], suspicions.filter(isLasting)),
      circumstances: oneOfEachForm(raised.filter(isCircumstance)),
    });
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

  /**
   * Would a further run exclude something that stood before it, by what one of those typically shows, or is it the first foreign piece in a
   * host, or the first of a foreign piece? What the run itself may spoil does not count. `key` names its circumstances.
   */
  tells(belief: Belief, setting: () => RunSetting, key: number): boolean {
    const at = stepKey(belief, key);
    const kept = this.#tells.get(at);
    if (kept !== undefined) return kept;
    const tells = this.#isTelling(belief, setting());
    this.#tells.set(at, tells);
    return tells;
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
    const [last, mind] = [placed.at(-1), this.#minds.get(belief.id)];
    if (!last || !mind) return { foretold: [], next: new Map() };
    const raised = broughtUpBy(planned, last, this.#firmware);
    const circumstances = oneOfEachForm([...mind.circumstances, ...raised.filter(isCircumstance)]);
    const suspects = oneOfEachForm([...raised, ...circumstances]).filter((one) => !mind.weighed.includes(formOf(one)));
    const arising = suspects.filter((one) => this.#stands(one, belief.runs, placed));
    const all = inOrder(
      [...mind.standing, ...arising, ...broughtBy(planned, mind.standing)].map((one) => this.#predicted(one, last)),
    );
    const usual = usualFor(belief.runs, planned);
    const foretold = unlike(all.map(({ suspicion, allowed }) => ({ suspicion, shows: typically(allowed, usual) })));
    const weighed = withForms(mind.weighed, suspects);
    const next = new Map<Seen, Belief>();
    for (const outcome of new Set(foretold.map(({ shows }) => shows))) {
      const left = all.filter(({ allowed }) => agrees(allowed, outcome)).map(({ suspicion }) => suspicion);
      const runs = [...belief.runs, { ...planned, outcome }];
      next.set(outcome, this.#intern(runs, this.#minded(runs, placed, { standing: left, weighed, circumstances })));
    }
    return { foretold, next };
  }

  #isTelling(belief: Belief, setting: RunSetting): boolean {
    const { host, piece, isOwn } = setting;
    if (!isOwn && (!belief.triedIn.includes(host) || !belief.triedPieces.includes(piece.key))) return true;
    const planned = { ...setting, order: belief.runs.length + 1 };
    const [last, mind] = [placeRuns([...belief.runs, planned]).at(-1), this.#minds.get(belief.id)];
    if (!last || !mind) return false;
    const stood = mind.standing.map((one) => this.#predicted(one, last));
    const usual = usualFor(belief.runs, planned);
    const outcomes = new Set(stood.map(({ allowed }) => typically(allowed, usual)));
    return [...outcomes].some((outcome) => stood.some(({ allowed }) => !agrees(allowed, outcome)));
  }

  #predicted(suspicion: Suspicion, at: PlacedRun): Predicted {
    return { suspicion, allowed: predictRun(suspicion, at, this.#firmware) };
  }

  /** What the outcome of the last run adds to what is suspected, and takes from it. */
  #minded(runs: readonly MadeRun[], placed: readonly PlacedRun[], { standing, weighed, circumstances }: Mind): Mind {
    const [run, at] = [runs.at(-1), placed.at(-1)];
    const left = oneOfEachForm(standing);
    if (!isTroubled(runs)) {
      const dropped = new Set(circumstances.map(formOf));
      return {
        standing: left.filter((one) => !dropped.has(formOf(one))),
        weighed: dropped.size === 0 ? weighed : weighed.filter((form) => !dropped.has(form)),
        circumstances,
      };
    }
    // An own part is suspected only once it is in trouble.
    const suspects = run?.isOwn && at ? broughtUpBy(run, at, this.#firmware) : [];
    const fresh = suspects.filter((one) => !weighed.includes(formOf(one)));
    if (fresh.length === 0) return { standing: left, weighed, circumstances };
    const arising = fresh.filter((one) => this.#stands(one, runs, placed));
    return { standing: oneOfEachForm([...left, ...arising]), weighed: withForms(weighed, fresh), circumstances };
  }

  #intern(runs: readonly MadeRun[], mind: Mind): Belief {
    const key = `${historyKey(mind.standing, runs)} ${this.#latent(runs, mind)}`;
    const kept = this.#known.get(key);
    if (kept) return kept;
    const stands = new Set(mind.standing.map(({ explanation }) => explanation));
    const foreign = runs.filter((run) => !run.isOwn && run.outcome !== 'unseen');
    const made: Belief = {
      id: this.#known.size,
      runs,
      standing: EXPLANATIONS.filter((explanation) => stands.has(explanation)),
      troubled: isTroubled(runs),
      triedIn: [...new Set(foreign.map(({ host }) => host))],
      triedPieces: [...new Set(foreign.map(({ piece }) => piece.key))],
      controlledIn: controlledHosts(runs),
    };
    this.#known.set(key, made);
    this.#minds.set(made.id, mind);
    return made;
  }

  /** What is not weighed yet, or was and is excluded, and may come up: would it stand, and did the piece cross over unseen? */
  #latent(runs: readonly MadeRun[], { weighed, circumstances }: Mind): string {
    const hidden = runs
      .filter((run) => !run.isOwn)
      .map((run): Suspicion => ({ explanation: 'bad-donor', piece: run.piece.key }));
    const latent = oneOfEachForm([...hidden, ...circumstances]).filter((one) => !weighed.includes(formOf(one)));
    const placed = latent.length === 0 ? [] : placeRuns(runs);
    const flags = latent.map((one) => `${formOf(one)}${this.#stands(one, runs, placed) ? '' : '!'}`);
    return `${weighed.join()} ${flags.sort().join()}`;
  }

  #stands(suspicion: Suspicion, runs: readonly MadeRun[], placed: readonly PlacedRun[]): boolean {
    return runs.every(({ outcome }, index) => {
      const at = placed[index];
      return outcome === 'unseen' || !at || agrees(predictRun(suspicion, at, this.#firmware), outcome);
    });
  }
}

/** A suspicion and what it allows the run to show that is looked at. */
interface Predicted {
  readonly suspicion: Suspicion;
  readonly allowed: Allowed;
}

const isTroubled = (runs: readonly MadeRun[]): boolean =>
  runs.some(({ outcome }) => outcome === 'failed' || outcome === 'reduced');

/** Forms of one explanation stay in the order in which they arose. */
const inOrder = (all: readonly Predicted[]): readonly Predicted[] =>
  [...all].sort((a, b) => RANK[a.suspicion.explanation] - RANK[b.suspicion.explanation]);

const RANK = Object.fromEntries(EXPLANATIONS.map((explanation, rank) => [explanation, rank])) as Readonly<
  Record<Explanation, number>
>;

/** What differs only in which run before now it began with, or misread, is alike for all runs to come. */
const oneOfEachForm = (standing: readonly Suspicion[]): readonly Suspicion[] => {
  const forms = new Map(standing.map((one) => [formOf(one), one]));
  return forms.size === standing.length ? standing : [...forms.values()];
};

const withForms = (forms: readonly string[], added: readonly Suspicion[]): readonly string[] =>
  added.length === 0 ? forms : [...new Set([...forms, ...added.map(formOf)])].sort();

const isLasting = ({ explanation }: Suspicion): boolean =>
  explanation !== 'handling-damage' && explanation !== 'test-error';

const isCircumstance = ({ explanation }: Suspicion): boolean => CIRCUMSTANCES.includes(explanation);

/**
 * What may a run itself bring about? That it is misread, or, where the place is handled, that its host is damaged from now on, beside
 * whatever damage stands. Either agrees with all that was seen before exactly if the same without it does.
 */
const broughtBy = ({ host, handled, order }: OrderedSetting, standing: readonly Suspicion[]): readonly Suspicion[] => {
  const isFine = standing.some(({ explanation }) => explanation === 'accepted');
  const misread: readonly Suspicion[] = isFine ? [{ explanation: 'test-error', misread: order }] : [];
  if (!handled) return misread;
  const damaged = standing.flatMap(({ damagedFrom }) => (damagedFrom ? [damagedFrom] : []));
  return [
    ...(isFine ? [{}, ...damaged] : damaged)
      .filter((before) => !(host in before))
      .map((before): Suspicion => ({ explanation: 'handling-damage', damagedFrom: { ...before, [host]: order } })),
    ...misread,
  ];
};

/** Forms that foretell the same and differ in when they set in count once. */
const unlike = (all: readonly Foretold[]): readonly Foretold[] => [
  ...new Map(all.map((one) => [`${formOf(one.suspicion)} ${one.shows}`, one])).values(),
];
