import { showScaled } from '#quantity/explained';
import { classOf, type IndexClass } from './classes.ts';

/**
 * How far below the declared R may the determined R lie? In per cent of the declared.
 * Source: Regulation (EU) 2023/1669, Annex IX Table 10 (read). The tolerance is for authorities, not for design.
 */
export const R_TOLERANCE_PER_CENT = 4;

/** One determined R against the declared one. */
export interface SurveillanceCheck {
  readonly passes: boolean;
  /** Least R that passes, four decimals: 0.96 of the declared, exact. */
  readonly least: string;
  /** The arithmetic in words. */
  readonly arithmetic: string;
}

/**
 * Does a determined R uphold the declared one? Declared R in hundredths as printed, determined R in ten-thousandths. At
 * most 4 % below is upheld (Annex IX Table 10); exact integers throughout.
 */
export const checkR = (declaredHundredths: number, determined: number): SurveillanceCheck => {
  const least = declaredHundredths * (100 - R_TOLERANCE_PER_CENT);
  const passes = determined >= least;
  const sign = passes ? '>=' : '<';
  const arithmetic = `${showScaled(determined, 4)} ${sign} 0.96 × ${showScaled(declaredHundredths, 2)} = ${showScaled(least, 4)}`;
  return { passes, least: showScaled(least, 4), arithmetic };
};

/** Where does the verification of R stand? */
export type SurveillanceStanding = 'nothing-determined' | 'complies' | 'test-one-further-unit' | 'model-fails';

/**
 * Does the model comply on R, after the units tested so far? One unit; if it fails, one further unit of the same model
 * (three for other parameters); a second failure fails the model (Annex IX). Determined R in ten-thousandths, in order.
 */
export const standingAfter = (declaredHundredths: number, determined: readonly number[]): SurveillanceStanding => {
  const [first, second] = determined;
  if (first === undefined) return 'nothing-determined';
  if (checkR(declaredHundredths, first).passes) return 'complies';
  if (second === undefined) return 'test-one-further-unit';
  return checkR(declaredHundredths, second).passes ? 'complies' : 'model-fails';
};

/** Is the printed class borne out by the declared R? */
export interface ClassCheck {
  readonly upheld: boolean;
  readonly fromDeclared: IndexClass | undefined;
  /** What follows where it is not upheld. */
  readonly consequence: string;
}

/**
 * May the label or sheet print this class? Not a better one than the declared R gives; a better one fails the model and
 * all equivalents outright, without a test (Annex IX). A worse one is allowed.
 */
export const checkClass = (printed: IndexClass, declaredHundredths: number): ClassCheck => {
  const fromDeclared = classOf(declaredHundredths * 100);
  const upheld = fromDeclared !== undefined && printed >= fromDeclared;
  const consequence = upheld ? 'none' : 'the model and all equivalent models fail without a test';
  return { upheld, fromDeclared, consequence };
};
