import type { Explanation } from '../model/explanation.ts';
import type { SwapRun } from '../model/swap-run.ts';
import type { GapRequest } from './gaps.ts';
import { isPlainForeign, isRefitControl, isSeenAlone } from './told-apart.ts';

/** What can be left open? A closed list; the words follow from it. */
export type GapKind =
  | 'no-explanation'
  | 'no-foreign-fit'
  | 'no-refit-control'
  | 'no-swap-back'
  | 'one-specimen'
  | 'one-direction'
  | 'not-repeated'
  | 'never-alone'
  | 'mixed-revisions'
  | 'revision-unknown'
  | 'home-lock-unknown'
  | 'not-ready'
  | 'readiness-unknown'
  | 'not-settled'
  | 'settling-unknown'
  | 'firmware-unknown'
  | 'firmware-not-tried'
  | 'no-authorised-step'
  | 'authorised-step-not-tried'
  | 'calibration-not-tried'
  | 'hidden'
  | 'not-told-apart'
  | 'damage-bounded';

/** Which runs is a gap about? Undefined where there is no such gap; none where it is about what was not done. */
export type GapCheck = (request: GapRequest) => readonly SwapRun[] | undefined;

const foreignOf = ({ runs }: GapRequest): readonly SwapRun[] => runs.filter(({ isOwn }) => !isOwn);
const plainOf = ({ runs }: GapRequest): readonly SwapRun[] =>
  runs.filter((run) => isPlainForeign(run) && isSeenAlone(run));

const ifAny = (runs: readonly SwapRun[]): readonly SwapRun[] | undefined => (runs.length > 0 ? runs : undefined);
const iff = (isGap: boolean, runs: readonly SwapRun[] = []): readonly SwapRun[] | undefined =>
  isGap ? runs : undefined;
const inAny =
  (isSo: (run: SwapRun) => boolean): GapCheck =>
  ({ runs }) =>
    ifAny(runs.filter(isSo));
const inForeign = (isSo: (run: SwapRun) => boolean): GapCheck => inAny((run) => !run.isOwn && isSo(run));

const stands = ({ conclusion }: GapRequest, ...any: readonly Explanation[]): boolean =>
  conclusion.standing.some(({ explanation }) => any.includes(explanation));

/** Foreign fits in hosts in which no run of some sort was seen. */
const withoutInHost =
  (isIt: (run: SwapRun, runs: readonly SwapRun[]) => boolean): GapCheck =>
  (request) => {
    const had = new Set(request.runs.filter((run) => isSeenAlone(run) && isIt(run, request.runs)).map(hostOf));
    return ifAny(foreignOf(request).filter(({ host }) => !had.has(host)));
  };

const hostOf = ({ host }: SwapRun): string => host;

const isSwapBack = (run: SwapRun, runs: readonly SwapRun[]): boolean =>
  run.isOwn && runs.some(({ host, isOwn, order }) => host === run.host && !isOwn && order < run.order);

const isRevisionKnown = ({ piece, hostRevision }: SwapRun): boolean =>
  piece.revision !== undefined && hostRevision !== undefined;

const oneDirection: GapCheck = (request) => {
  const exchanged = plainOf(request).filter(({ piece }) => piece.home !== undefined);
  const isReturned = (run: SwapRun): boolean =>
    exchanged.some(({ host, piece }) => host === run.piece.home && piece.home === run.host);
  return exchanged.some(isReturned) ? undefined : ifAny(exchanged);
};

const notRepeated: GapCheck = (request) => {
  const plain = plainOf(request);
  const isLike = (a: SwapRun, b: SwapRun): boolean => a.host === b.host && a.firmware === b.firmware;
  return ifAny(plain.filter((run) => plain.filter((other) => isLike(run, other)).length === 1));
};

/**
 * Runs with an effect that all had the same other part foreign in them, while none with that part passed: whether the two fail only
 * together is not known.
 */
const neverAlone: GapCheck = (request) => {
  const plain = plainOf(request);
  const troubled = plain.filter(({ outcome }) => outcome !== 'passed');
  const others = (run: SwapRun): readonly string[] => run.foreignBeside ?? run.together;
  const passedWith = new Set(plain.filter(({ outcome }) => outcome === 'passed').flatMap(others));
  const always = troubled[0]
    ? others(troubled[0]).filter((part) => troubled.every((run) => others(run).includes(part)))
    : [];
  return iff(
    always.some((part) => !passedWith.has(part)),
    troubled,
  );
};

/** Do pairing and a bug both stand, so that only an authorised step tells them apart? */
const isPairingOrBug = (request: GapRequest): boolean =>
  stands(request, 'pairing-reversible', 'pairing-latching') && stands(request, 'unfixed-bug', 'firmware-bug');

const isAuthorisedTried = ({ runs }: GapRequest): boolean =>
  runs.some((run) => run.authorised && !run.isOwn && isSeenAlone(run));

const isCalibrationTried = ({ runs }: GapRequest): boolean =>
  runs.some((run) => run.calibrated && !run.isOwn && isSeenAlone(run));

const newestNotTried: GapCheck = (request) => {
  const newest = request.firmware.at(-1);
  const foreign = foreignOf(request);
  return iff(newest !== undefined && foreign.length > 0 && !foreign.some(({ firmware }) => firmware === newest));
};

const authorisedNotTried: GapCheck = (request) =>
  iff(isPairingOrBug(request) && request.offered.authorisation !== false && !isAuthorisedTried(request));

/** When is each thing left open? */
export const GAP_CHECKS: Readonly<Record<GapKind, GapCheck>> = {
  'no-explanation': ({ conclusion, runs }) => iff(conclusion.standing.length === 0, runs),
  'no-foreign-fit': (request) => iff(plainOf(request).length === 0),
  'no-refit-control': withoutInHost(isRefitControl),
  'no-swap-back': withoutInHost(isSwapBack),
  'one-specimen': (request) => iff(new Set(plainOf(request).map(hostOf)).size === 1, plainOf(request)),
  'one-direction': oneDirection,
  'not-repeated': notRepeated,
  'never-alone': neverAlone,
  'mixed-revisions': inForeign((run) => isRevisionKnown(run) && run.piece.revision !== run.hostRevision),
  'revision-unknown': inForeign((run) => !isRevisionKnown(run)),
  'home-lock-unknown': inForeign(({ piece }) => piece.homeLock === undefined),
  'not-ready': inAny(({ ready }) => ready === false),
  'readiness-unknown': inAny(({ ready }) => ready === undefined),
  'not-settled': inAny(({ settled }) => settled === false),
  'settling-unknown': inAny(({ settled }) => settled === undefined),
  'firmware-unknown': inAny(({ firmware }) => firmware === undefined),
  'firmware-not-tried': newestNotTried,
  'no-authorised-step': (request) => iff(isPairingOrBug(request) && request.offered.authorisation === false),
  'authorised-step-not-tried': authorisedNotTried,
  'calibration-not-tried': (request) => iff(stands(request, 'missing-calibration') && !isCalibrationTried(request)),
  hidden: inAny(({ outcome }) => outcome === 'unseen'),
  'not-told-apart': inAny((run) => !isSeenAlone(run) && run.outcome !== 'unseen'),
  'damage-bounded': ({ damagedAtOnce }) => iff(damagedAtOnce !== undefined),
};
