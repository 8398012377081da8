import type { Assessment, Swap } from '#record/schema/assessment';
import type { NamedSwap } from '#record/standing-swaps';
import type { Piece } from './swap-run.ts';

/** Which physical piece was fitted, and what is not recorded of it, in words. */
export interface FittedPiece {
  readonly piece: Piece;
  readonly isOwn: boolean;
  /** Undefined where the piece is known. */
  readonly problem?: string;
}

/** What tells pieces apart: the record and the fits that stand in it. */
export interface PieceContext {
  readonly assessment: Assessment;
  readonly standing: readonly NamedSwap[];
}

/**
 * Which piece does a fit put into the host? The own part where that is said, or the stage of the protocol says so; else the donor:
 * an own part of another specimen, a piece with an id, or a piece without one where the part had only one of these. A piece that
 * cannot be told apart from others has a key of its own and a problem, so that nothing is concluded from it.
 */
export const pieceOf = (id: string, swap: Swap, context: PieceContext): FittedPiece => {
  const isOwn = isOwnFit(swap);
  if (isOwn === undefined) return { ...unknownPiece(id), problem: 'whether the own part or a foreign one was fitted' };
  if (isOwn) return { piece: ownPiece(swap.specimen, swap.part, context), isOwn };
  const { donor } = swap;
  if (!donor) return { ...unknownPiece(id), problem: 'which foreign piece was fitted' };
  const listed = donor.item === undefined ? undefined : context.assessment.swapBench?.donors?.[donor.item];
  const home = donor.specimen ?? listed?.specimen;
  if (home === swap.specimen)
    return { ...unknownPiece(id), problem: 'which piece it was: the donor is the host itself' };
  if (home === undefined && donor.item === undefined && !isOnlyNameless(swap, context))
    return { ...unknownPiece(id), problem: 'which of several pieces it was (donor/item)' };
  return { piece: foreignPiece(id, swap, { home, listed, context }), isOwn };
};

const unknownPiece = (id: string): FittedPiece => ({ piece: { key: `fit:${id}` }, isOwn: false });

const OWN_ARMS: readonly (string | undefined)[] = ['baseline', 'refit-control', 'swap-back'];

/** Was the own part fitted, by what the fit says or by its stage? Undefined where neither tells. */
export const isOwnFit = ({ fitted, arm, donor, specimen }: Swap): boolean | undefined => {
  if (fitted !== undefined) return fitted === 'own';
  if (OWN_ARMS.includes(arm)) return true;
  if (donor === undefined) return undefined;
  return donor.specimen === specimen && donor.item === undefined;
};

/** Is it the only foreign fit of its place with neither an item nor a specimen? */
const isOnlyNameless = (swap: Swap, { standing }: PieceContext): boolean =>
  standing.filter(([, { part, donor }]) => part === swap.part && donor && !donor.item && !donor.specimen).length === 1;

type Lock = Piece['homeLock'];

/** Which key has the own part of a specimen, wherever it is fitted? */
export const ownPieceKey = (specimen: string): string => `specimen:${specimen}`;

const ownPiece = (specimen: string, part: string, context: PieceContext): Piece => {
  const revision = ownRevision(specimen, part, context);
  const homeLock = lockOfUnit(specimen, context);
  return {
    key: ownPieceKey(specimen),
    home: specimen,
    ...(revision === undefined ? {} : { revision }),
    ...(homeLock === undefined ? {} : { homeLock }),
  };
};

type ListedDonor = NonNullable<NonNullable<Assessment['swapBench']>['donors']>[string];

/** Which piece is a donor that the bench lists? The same as in a fit that names it and says no more. */
export const listedPiece = (item: string, listed: ListedDonor, context: PieceContext): Piece =>
  foreignPiece(
    item,
    { part: listed.part, donor: { kind: listed.kind, item } },
    { home: listed.specimen, listed, context },
  );

interface Donated {
  readonly home: string | undefined;
  readonly listed: ListedDonor | undefined;
  readonly context: PieceContext;
}

const foreignPiece = (
  id: string,
  { donor, part }: Pick<Swap, 'donor' | 'part'>,
  { home, listed, context }: Donated,
): Piece => {
  const own = home === undefined ? undefined : ownPiece(home, part, context);
  const revision = donor?.revision ?? listed?.revision ?? own?.revision;
  const homeLock = knownLock(donor?.homeLock) ?? knownLock(listed?.homeLock) ?? own?.homeLock;
  const kind = donor?.kind ?? listed?.kind;
  return {
    key: own?.key ?? donor?.item ?? `fit:${id}`,
    ...(home === undefined ? {} : { home }),
    ...(kind === undefined ? {} : { kind }),
    ...(revision === undefined ? {} : { revision }),
    ...(homeLock === undefined ? {} : { homeLock }),
  };
};

const knownLock = (lock: Lock | 'unknown'): Lock => (lock === 'unknown' ? undefined : lock);

/** A unit signed in to the laboratory's own account is neither known as free nor as locked to what it meets. */
const lockOfUnit = (specimen: string, { assessment }: PieceContext): Lock => {
  const lock = assessment.specimens?.[specimen]?.accountLock;
  return lock === 'none' || lock === 'locked' ? lock : undefined;
};

/** Which revision has the own part of a specimen? As marked on it where some fit or the bench says so, else that of the unit. */
export const ownRevision = (specimen: string, part: string, context: PieceContext): string | undefined => {
  const { assessment, standing } = context;
  const marked = standing.find(([, swap]) => swap.part === part && isMarkedOwn(swap, specimen))?.[1].donor?.revision;
  if (marked !== undefined) return marked;
  const donors = Object.values(assessment.swapBench?.donors ?? {});
  const listed = donors.find((donor) => donor.part === part && donor.specimen === specimen && donor.revision);
  return listed?.revision ?? assessment.specimens?.[specimen]?.revision;
};

const isMarkedOwn = ({ donor }: Swap, specimen: string): boolean =>
  donor?.specimen === specimen && donor.revision !== undefined;
