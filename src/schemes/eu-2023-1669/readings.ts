import type { CountingRules } from '#routes/steps/counting-rules';
import { STEPS_PER_REMOTE_ACTION } from './bands.ts';
import type { ToolClass } from './input.ts';
import type { Interpretations } from './interpretations.ts';

/** How are steps counted under these readings? The switches of rows 1 to 6 as the step counter takes them. */
export const countingRulesFor = (readings: Interpretations): CountingRules => ({
  fastenersAsParts: readings['fasteners-as-parts'] === 'yes',
  unpluggingBySelf: readings.unplugging === 'by-itself',
  cleaningAfterRelease: readings['cleaning-after-release'] === 'counted',
  reheatingOncePerPlace: readings.reheating === 'once-per-place',
  holdingAidsAreTools: readings['holding-aids'] === 'tools',
  firstPickUpIsChange: readings['first-pick-up'] === 'change',
  bareHandsIsChange: readings['bare-hands'] === 'change',
});

/**
 * How many steps do the remote actions of one part add? Five each; where notification and authorisation are read as one
 * action, a notification and an authorisation count once together. Numbers of actions in, steps out.
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, counting of steps; interpretation `remote-pairing`.
 */
export const pairingSteps = (
  actions: { readonly notifications: number; readonly authorisations: number },
  readings: Pick<Interpretations, 'remote-pairing'>,
): number => {
  const { notifications, authorisations } = actions;
  const counted =
    readings['remote-pairing'] === 'two-actions'
      ? notifications + authorisations
      : Math.max(notifications, authorisations);
  return STEPS_PER_REMOTE_ACTION * counted;
};

const worstFirst: readonly ToolClass[] = ['below-scale', 'commercial', 'with-product', 'with-spare', 'basic', 'none'];

const byClass = (a: ToolClass, b: ToolClass): number => worstFirst.indexOf(a) - worstFirst.indexOf(b);

/**
 * Which class has a tool that fits several? The best it fits, or the worst (interpretation `tool-in-several-classes`);
 * a tool that fits none is below the scale.
 */
export const classOfTool = (
  fits: readonly ToolClass[],
  readings: Pick<Interpretations, 'tool-in-several-classes'>,
): ToolClass => {
  const sorted = [...fits].sort(byClass);
  return (readings['tool-in-several-classes'] === 'best' ? sorted.at(-1) : sorted[0]) ?? 'below-scale';
};

/** Which class decides among the tools of a stretch? The worst; without a tool, `none` (Annex IV point 5). */
export const worstToolClass = (classes: readonly ToolClass[]): ToolClass => [...classes].sort(byClass)[0] ?? 'none';

/** How far was an offer shown? As the record keeps it. */
export type OfferShown = 'listed' | 'orderable' | 'delivered' | 'refused';

const offerRank: Readonly<Record<OfferShown, number>> = { refused: 0, listed: 1, orderable: 2, delivered: 3 };

/**
 * Is a part available, given how far the offer was shown? `undefined` where the offer is real but not shown as far as the
 * reading asks (interpretation `available`): that is open, not a no.
 */
export const isAvailable = (shown: OfferShown, readings: Pick<Interpretations, 'available'>): boolean | undefined => {
  if (shown === 'refused') return false;
  return offerRank[shown] >= offerRank[readings.available] ? true : undefined;
};

/** Does the product take the foldable weights (interpretation `foldable`)? `undefined` where the fact asked for is not known. */
export const takesFoldableWeights = (
  facts: { readonly foldingDisplay: boolean | undefined; readonly hinge: boolean | undefined },
  readings: Pick<Interpretations, 'foldable'>,
): boolean | undefined => (readings.foldable === 'folding-display' ? facts.foldingDisplay : facts.hinge);
