/**
 * How are steps counted? The switches of the counting rules (Regulation (EU) 2023/1669, Annex I (20) and Annex IV point 5,
 * where the text leaves room), each off by default.
 */
export interface CountingRules {
  /** Row 1: each removed screw or strip is a removal of its own. */
  readonly fastenersAsParts: boolean;
  /** Row 2: unplugging ends a step by itself, not only once the part is moved. */
  readonly unpluggingBySelf: boolean;
  /** Row 3: cleaning after the fastener has let go counts. */
  readonly cleaningAfterRelease: boolean;
  /** Row 4: several heatings of one place count once. */
  readonly reheatingOncePerPlace: boolean;
  /** Row 5: fixtures, magnifiers and gloves are tools. */
  readonly holdingAidsAreTools: boolean;
  /** Row 6: taking up the first tool is a change of tool. */
  readonly firstPickUpIsChange: boolean;
  /** Row 6: putting the tool away for bare hands is a change of tool. */
  readonly bareHandsIsChange: boolean;
}

/** Which rules hold when nobody chose otherwise? All switches off. */
export const DEFAULT_COUNTING: CountingRules = {
  fastenersAsParts: false,
  unpluggingBySelf: false,
  cleaningAfterRelease: false,
  reheatingOncePerPlace: false,
  holdingAidsAreTools: false,
  firstPickUpIsChange: false,
  bareHandsIsChange: false,
};
