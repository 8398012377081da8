import type { RouteBook, SwapFinding } from '#schemes/duties/duty-subject';
import { bookOf, type Changes, CLEAN_SWAPS, routeOf, SEEN } from './full-record.ts';

/** How a row comes to be met and not met: on the full record of a category, with these changes. */
export interface RowCase {
  readonly category?: string;
  /** What makes the row apply and be met; nothing where the full record does. */
  readonly met?: Changes;
  /** What breaks it, each by itself; empty where the record can't show it broken. */
  readonly broken: readonly (Changes | { readonly routes: RouteBook } | { readonly swaps: readonly SwapFinding[] })[];
}

const fact = (name: string): Changes => ({ [`product/facts/${name}/is`]: false });
const figure = (name: string, is: number | string): Changes => ({ [`product/figures/${name}/is`]: is });
const refused = (role: string, whom: 'endUsers' | 'professionals'): Changes => ({
  [`supply/parts/${role}/${whom}/how`]: 'refused',
});
const routes = (fastener: string, tool: string, heat: readonly string[] = []) => ({
  routes: bookOf([routeOf(fastener as 'reusable', tool as 'basic', { heat })]),
});
const swapped = (effect: SwapFinding['effect'], over: Partial<SwapFinding> = {}) => ({
  swaps: [
    ...CLEAN_SWAPS,
    { part: 'battery', effect, cause: 'pairing' as const, on: SEEN, evidence: ['swap-sheet'], ...over },
  ],
});
const ingress = (code: string): Changes => ({ 'product/ingress/code': code });
const unmade = (state: string): Changes => ({ [`product/markets/${state}/repairMeans`]: false });

const ENDURED_LESS: readonly Changes[] = [
  figure('capacity-after-500-cycles', 82.9),
  figure('capacity-after-1000-cycles', 79.9),
  ingress('IP57'),
  ingress('IP66'),
];
const pairing = (state: string): Readonly<Record<string, RowCase>> => ({
  [`${state}-prevent`]: { broken: [swapped('E5'), swapped('E6'), swapped('E7')] },
  [`${state}-reduce`]: { broken: [swapped('E4')] },
  [`${state}-alerts`]: { broken: [swapped('E3', { misleading: true })] },
});

/** Every row of the table of duties, by its id. */
export const ROW_CASES: Readonly<Record<string, RowCase>> = {
  'ed-parts-professionals': {
    broken: [
      { ...refused('front-camera', 'professionals'), ...refused('front-camera', 'endUsers') },
      figure('parts-offered-years', 6.9),
    ],
  },
  'ed-parts-end-users': {
    broken: [
      refused('display', 'endUsers'),
      refused('back-cover', 'endUsers'),
      refused('tray', 'endUsers'),
      { ...refused('battery', 'endUsers'), ...figure('capacity-after-500-cycles', 82.9) },
      { ...fact('usb-c-receptacle'), ...fact('charger-to-end-users') },
      figure('parts-offered-years', 6),
    ],
  },
  'ed-battery-professionals-only': { met: refused('battery', 'endUsers'), broken: ENDURED_LESS },
  'ed-no-bundling': {
    broken: [
      { 'spares/spare-display/includes': ['battery'] },
      { 'spares/spare-front-camera/replaces': ['front-camera', 'rear-camera'] },
      { 'spares/spare-speaker/includes': ['display'], ...figure('power-button-presses', 224_999) },
    ],
  },
  'ed-part-list': { broken: [fact('part-list-public')] },
  'ed-delivery': { broken: [{ 'spares/spare-battery/deliveryWorkingDays': 6 }] },
  'ed-prices': { broken: [fact('indicative-prices-public')] },
  'ed-information-access': {
    broken: [
      figure('information-offered-years', 6),
      figure('registration-working-days', 6),
      fact('registration-free'),
      fact('registration-asks-competence-and-insurance-only'),
      figure('information-access-working-days', 2),
      { 'supply/information/repair-manual/professionals/access': 'deterring-fee' },
    ],
  },
  'ed-information-contents': { broken: [{ 'supply/information/board-diagrams/professionals/access': 'not-offered' }] },
  'ed-end-user-instructions': {
    broken: [fact('end-user-instructions-public'), figure('instructions-offered-years', 6)],
  },
  'ed-disassembly-professional': {
    broken: [
      routes('below-scale', 'basic'),
      routes('reusable', 'below-scale'),
      fact('professional-parts-in-workshop'),
      fact('professional-parts-by-generalist'),
    ],
  },
  'ed-disassembly-end-user': {
    broken: [
      routes('reusable', 'commercial'),
      fact('end-user-parts-in-use-environment'),
      fact('end-user-parts-by-layman'),
    ],
  },
  'ed-battery-route-i': {
    broken: [
      routes('removable', 'basic'),
      routes('reusable', 'commercial'),
      fact('battery-in-use-environment'),
      fact('battery-by-layman'),
    ],
  },
  'ed-battery-route-ii': {
    broken: [
      routes('below-scale', 'basic'),
      fact('battery-in-workshop'),
      fact('battery-by-generalist'),
      ...ENDURED_LESS,
    ],
  },
  'ed-battery-either': { broken: [routes('below-scale', 'basic')] },
  'ed-reuse': { broken: [fact('default-encryption'), fact('reset-erases-key'), fact('battery-data-visible')] },
  'ed-serialised': {
    broken: [
      fact('pairing-tools-to-professionals'),
      fact('pairing-tools-to-end-users'),
      fact('pairing-asks-owner-only'),
      figure('pairing-access-working-days', 4),
      fact('pairing-procedure-public'),
      figure('pairing-offered-years', 6),
    ],
  },
  'ed-falls': { broken: [figure('falls', 44), figure('units-passing-falls', 3)] },
  'ed-falls-foldable': {
    met: { 'product/facts/foil-foldable/is': true },
    broken: [figure('falls-closed', 34), figure('falls-open', 14), figure('units-passing-falls', 3)],
  },
  'ed-scratch': { broken: [figure('scratch-hardness', 3)] },
  'ed-ingress': { broken: [ingress('IP34'), ingress('IP43')] },
  'ed-spill': { category: 'slate-tablet', broken: [fact('spill-test-passed')] },
  'ed-endurance': { broken: [figure('cycles-to-80-percent', 799)] },
  'ed-endurance-other-phones': { category: 'feature-phone', broken: [figure('cycles-to-80-percent', 499)] },
  'ed-battery-management': {
    broken: [
      fact('charge-stop-at-80-percent'),
      fact('charge-stop-announced'),
      fact('full-battery-rests-to-95-percent'),
    ],
  },
  'ed-updates': {
    broken: [
      fact('updates-free-for-all-units'),
      figure('security-update-months', 5),
      figure('functionality-update-months', 7),
      fact('performance-loss-put-right'),
    ],
  },
  'ed-recyclers': { broken: [fact('dismantling-information-public'), figure('dismantling-information-years', 14)] },
  'ed-plastics': { broken: [fact('plastics-marked')] },
  'ed-cordless-parts': {
    category: 'cordless-phone',
    broken: [
      refused('battery', 'endUsers'),
      refused('back-cover', 'endUsers'),
      fact('cradle-to-end-users'),
      { ...fact('usb-c-receptacle'), ...fact('charger-to-end-users') },
    ],
  },
  'ed-cordless-battery': {
    category: 'cordless-phone',
    broken: [
      routes('reusable', 'commercial'),
      fact('battery-in-use-environment'),
      fact('battery-by-layman'),
      fact('standard-size-cells'),
    ],
  },
  'ed-cordless-standby': {
    category: 'cordless-phone',
    broken: [figure('standby-base', 1.01), figure('standby-cradle', 0.61)],
  },
  'br-removable': {
    broken: [
      routes('reusable', 'below-scale'),
      routes('reusable', 'with-spare'),
      routes('removable', 'basic', ['heat at the edge']),
    ],
  },
  'br-replaceable': {
    broken: [swapped('E4'), swapped('E5'), swapped('E6'), swapped('E7'), fact('compatible-battery-safe')],
  },
  'br-instructions': { broken: [fact('battery-instructions-online')] },
  'br-professionals-only': {
    met: { 'product/facts/mainly-wet-use/is': true },
    broken: [routes('reusable', 'below-scale')],
  },
  // An exception: where its reason is not on record it does not apply, so that it can't be broken.
  'br-left-out': { met: { 'product/facts/needs-permanent-power/is': true }, broken: [] },
  'br-spare': {
    broken: [refused('battery', 'endUsers'), figure('parts-offered-years', 4), fact('battery-price-reasonable')],
  },
  'br-no-software-lock': { broken: [swapped('E4'), swapped('E5'), swapped('E6'), swapped('E7')] },
  'r2r-part-prices': { broken: [fact('part-prices-do-not-deter')] },
  'r2r-tool-prices': { broken: [fact('tool-prices-do-not-deter')] },
  'r2r-contract': { broken: [fact('contract-terms-leave-repair-free')] },
  'r2r-technique': { broken: [swapped('E4'), swapped('E5')] },
  'r2r-other-parts': { broken: [swapped('E5'), fact('lawful-other-parts-accepted')] },
  'cc-receptacle': { broken: [fact('usb-c-receptacle')] },
  'cc-accessible': { broken: [fact('receptacle-always-accessible'), fact('charges-over-usb-c-cable')] },
  'cc-power-delivery': { broken: [fact('full-usb-power-delivery')] },
  'cc-without-charger': {
    broken: [
      fact('sold-also-without-charger'),
      fact('charger-pictogram'),
      figure('pictogram-width', 12.7),
      figure('pictogram-height', 9.2),
      fact('charging-power-label'),
    ],
  },
  ...pairing('or'),
  'or-means': { broken: [unmade('US-OR')] },
  ...pairing('co'),
  'co-means': { broken: [unmade('US-CO')] },
  ...pairing('wa'),
  'wa-means': { broken: [unmade('US-WA')] },
  'ca-means-three-years': {
    met: { 'product/markets/US-CA/wholesalePrice': '99.99 USD', 'product/markets/US-CA/offeredYears': 3 },
    broken: [unmade('US-CA'), { 'product/markets/US-CA/offeredYears': 2 }],
  },
  'ca-means-seven-years': { broken: [unmade('US-CA'), { 'product/markets/US-CA/offeredYears': 6 }] },
  'mn-means': { broken: [unmade('US-MN')] },
  'ny-means': { broken: [unmade('US-NY')] },
};
