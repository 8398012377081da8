import { z } from 'zod';
import { day, id, mapOf, quantityText, sourced, standing, text } from './basics.ts';

/** Facts that a law asks for and that hold or do not, by the names the table of duties uses. */
export const DUTY_FACTS = [
  'part-list-public',
  'indicative-prices-public',
  'registration-free',
  'registration-asks-competence-and-insurance-only',
  'end-user-instructions-public',
  'battery-by-layman',
  'battery-in-use-environment',
  'battery-by-generalist',
  'battery-in-workshop',
  'end-user-parts-by-layman',
  'end-user-parts-in-use-environment',
  'professional-parts-by-generalist',
  'professional-parts-in-workshop',
  'default-encryption',
  'reset-erases-key',
  'battery-data-visible',
  'pairing-tools-to-professionals',
  'pairing-tools-to-end-users',
  'pairing-asks-owner-only',
  'pairing-procedure-public',
  'foil-foldable',
  'spill-test-passed',
  'charge-stop-at-80-percent',
  'charge-stop-announced',
  'full-battery-rests-to-95-percent',
  'updates-provided',
  'updates-free-for-all-units',
  'performance-loss-put-right',
  'dismantling-information-public',
  'plastics-over-50-g',
  'plastics-marked',
  'standard-size-cells',
  'external-card-slot',
  'charger-to-end-users',
  'cradle-to-end-users',
  'sealed-portable-battery',
  'battery-instructions-online',
  'mainly-wet-use',
  'needs-permanent-power',
  'compatible-battery-safe',
  'battery-price-reasonable',
  'usb-c-receptacle',
  'receptacle-always-accessible',
  'charges-over-usb-c-cable',
  'full-usb-power-delivery',
  'sold-also-without-charger',
  'charger-pictogram',
  'charging-power-label',
  'part-prices-do-not-deter',
  'maker-supplies-tools',
  'tool-prices-do-not-deter',
  'contract-terms-leave-repair-free',
  'lawful-other-parts-accepted',
] as const;

/** Figures that a law sets a threshold for, by the names the table of duties uses; each with the unit of a bare number. */
export const DUTY_FIGURES = {
  'parts-offered-years': 'years from the end of placing',
  'information-offered-years': 'years from the end of placing',
  'instructions-offered-years': 'years from the end of placing',
  'pairing-offered-years': 'years from the end of placing',
  'dismantling-information-years': 'years from the end of placing',
  'registration-working-days': 'working days',
  'information-access-working-days': 'working days',
  'pairing-access-working-days': 'working days',
  'capacity-after-500-cycles': '%',
  'capacity-after-1000-cycles': '%',
  'cycles-to-80-percent': 'cycles',
  falls: 'falls from 1 m',
  'falls-closed': 'falls from 1 m, closed',
  'falls-open': 'falls from 1 m, open',
  'units-passing-falls': 'units of five',
  'scratch-hardness': 'Mohs',
  'power-button-presses': 'presses',
  'volume-button-presses': 'presses',
  'port-cycles': 'cycles',
  'security-update-months': 'months after the source is released',
  'functionality-update-months': 'months after the source is released',
  'standby-base': 'W',
  'standby-cradle': 'W',
  'charging-power': 'W',
  'charging-voltage': 'V',
  'charging-current': 'A',
  'pictogram-width': 'mm',
  'pictogram-height': 'mm',
} as const;

/** The name of a fact that a law asks for. */
export type DutyFact = (typeof DUTY_FACTS)[number];
/** The name of a figure that a law sets a threshold for. */
export type DutyFigure = keyof typeof DUTY_FIGURES;

/** States of the USA whose repair laws the table of duties holds (ISO 3166-2). */
export const MARKETS = ['US-CA', 'US-CO', 'US-MN', 'US-NY', 'US-OR', 'US-WA'] as const;

/** What a law asks for, as found: `is` says yes or no. */
const statedFact = z.strictObject({ is: z.boolean().optional(), standing: standing.optional(), ...sourced });

/** A figure a law sets a threshold for, as found: a number in the unit of the figure, or a quantity with its spread. */
const statedFigure = z.strictObject({
  is: z
    .union([z.number().min(0).max(1e9), quantityText])
    .optional()
    .describe('a number in the unit of the figure, or e.g. "83.0 ± 0.5 %"'),
  standing: standing.optional(),
  ...sourced,
});

/** What is known of the product in one market: when it was first sold there, and what its maker offers for repair. */
const market = z.strictObject({
  firstSold: day.optional().describe('day the model was first sold or used there'),
  repairMeans: z
    .boolean()
    .optional()
    .describe('parts, tools and documents are offered to owners and independent repairers'),
  givenToAuthorised: z.boolean().optional().describe('the maker gives them to its authorised repairers'),
  businessOnly: z.boolean().optional().describe('sold by business or government contract only'),
  wholesalePrice: quantityText.optional().describe('price to dealers, e.g. "480 USD"'),
  offeredYears: z.number().min(0).max(100).optional().describe('years from the last manufacture'),
  standing: standing.optional(),
  ...sourced,
});

/** The fields of a product that only duties ask for. */
export const dutyFields = {
  firstMade: day.optional().describe('day the model was first manufactured'),
  lastMade: day.optional().describe('day the model was last manufactured'),
  firstPlaced: day.optional().describe('day the first unit was placed on the Union market'),
  ingress: z
    .strictObject({
      code: z
        .string()
        .regex(/^IP[0-6X][0-9X]$/, 'an ingress code is IP and two digits, X where not tested, e.g. "IP67"'),
      standing: standing.optional(),
      ...sourced,
    })
    .optional()
    .describe('ingress protection as declared or tested'),
  biometricParts: z
    .array(id)
    .max(50)
    .optional()
    .describe('ids of parts that are components for authenticating a person and nothing else; [] is none'),
  facts: z.partialRecord(z.enum(DUTY_FACTS), statedFact).optional().describe('facts that a law asks for, as found'),
  figures: z
    .partialRecord(z.enum(Object.keys(DUTY_FIGURES) as [DutyFigure, ...DutyFigure[]]), statedFigure)
    .optional()
    .describe('figures that a law sets a threshold for, as found'),
  dutyDefaults: mapOf(
    z.strictObject({ asked: z.boolean(), reason: text.min(1), by: text.optional(), on: day.optional() }),
  )
    .optional()
    .describe('rows of duties from memory that are kept or set aside here, with the reason; no other row can be'),
  markets: z
    .partialRecord(z.enum(MARKETS), market)
    .optional()
    .describe('what is known of the product market by market'),
};
