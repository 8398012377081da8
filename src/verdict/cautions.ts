import { parseQuantity } from '#quantity/parse-quantity';
import type { Assessment } from '#record/schema/assessment';
import type { BenchSource } from '#routes/sequence/observed-run';
import type { Caution } from './verdict.ts';

/** State of charge above which a lithium cell is treated as a hazard of its own [%]. Follows the 30 % of transport rules; no law sets one for opening a device. */
const CHARGE_LIMIT_PERCENT = 30;
/** Greatest temperature at a cell's side when heat is used near it [°C]. */
const CELL_SIDE_LIMIT_CELSIUS = 60;

const RULES_FIRST = 'Local rules and licensed practice come first.';

interface Hazards {
  readonly cells: readonly string[];
  readonly heated: readonly string[];
  readonly dissolved: readonly string[];
  readonly glass: readonly string[];
  readonly charged: readonly string[];
  readonly mains: readonly string[];
  readonly xRay: readonly string[];
}

const hazardsOf = ({ assessment, device }: BenchSource): Hazards => {
  const parts = [...device.parts.values()];
  const fastenersWith = (action: string): string[] =>
    [...device.fasteners.values()]
      .filter((fastener) => Object.values(fastener.ways).some((way) => way.actions.some((step) => step.do === action)))
      .map((fastener) => fastener.id);
  const toolsWith = (hazard: string): string[] =>
    Object.entries(assessment.tools ?? {})
      .filter(([, tool]) => tool.hazard === hazard)
      .map(([id]) => id);
  return {
    cells: parts.filter((part) => part.role === 'battery' || part.record?.lithium === true).map((part) => part.id),
    heated: fastenersWith('heat'),
    dissolved: fastenersWith('dissolve'),
    glass: parts.filter((part) => /glass/i.test(part.record?.material ?? '')).map((part) => part.id),
    charged: parts.filter((part) => part.role === 'capacitor' || part.role === 'power-unit').map((part) => part.id),
    mains: toolsWith('mains'),
    xRay: toolsWith('x-ray'),
  };
};

/**
 * Which cautions does this device call for? By hazard state, each before the action that combines the hazards, with its figure
 * and source. A fact of the trade without a source says so.
 */
export const cautionsOf = (source: BenchSource): readonly Caution[] => {
  const hazards = hazardsOf(source);
  return [
    ...cellCautions(hazards, source.assessment),
    ...heatCautions(hazards),
    ...solventCautions(hazards),
    ...otherCautions(hazards),
  ];
};

const cellCautions = ({ cells }: Hazards, assessment: Assessment): Caution[] => {
  if (cells.length === 0) return [];
  const charges = Object.entries(assessment.specimens ?? {}).map(([id, specimen]) => ({
    id,
    percent: percentOf(specimen.charge),
  }));
  const above = charges
    .filter(({ percent }) => percent === undefined || percent > CHARGE_LIMIT_PERCENT)
    .map(({ id, percent }) => `${id}${percent === undefined ? ', charge not known' : ` at ${percent} %`}`);
  const harmed = Object.values(assessment.damage ?? {}).filter(
    (damage) => damage.severity === 'safety' || (damage.subject !== undefined && cells.includes(damage.subject)),
  );
  const state = above.length > 0 ? ` Above that, or not known: specimen ${above.join('; ')}.` : '';
  const cell: Caution = {
    id: 'lithium-cell',
    title: 'Lithium cell',
    text: `Bring the cell to about 25 to ${CHARGE_LIMIT_PERCENT} % charge before opening, not to zero.${state} Do not bend, pierce or pry against it with metal; stop at bulging, hissing, heat, odour or leaking. ${RULES_FIRST}`,
    source:
      'charge: derived from the 30 % of air transport rules, no law found; handling: OSHA SHIB (January 2019) and fire services, secondary',
    where: cells,
  };
  return harmed.length === 0
    ? [cell]
    : [
        cell,
        quarantine(
          cells,
          harmed.map((damage) => damage.what),
        ),
      ];
};

const percentOf = (text: string | undefined): number | undefined => {
  if (text === undefined) return undefined;
  const { quantity } = parseQuantity(text);
  return quantity?.unit.symbol === '%' ? quantity.value : undefined;
};

const quarantine = (cells: readonly string[], harms: readonly string[]): Caution => ({
  id: 'harmed-cell',
  title: 'Cell that was harmed',
  text: `Recorded: ${harms.join('; ')}. Move a reacting cell only if it is safe and you are trained to; dry sand in a container that cannot burn, outdoors for at least 6 h, and call the fire service. A cooled cell may still fail later; keep it apart. ${RULES_FIRST}`,
  source: 'Tennessee environment department, read; ATF fire laboratory bulletin, October 2024, secondary',
  where: cells,
});

const heatCautions = ({ cells, heated }: Hazards): Caution[] =>
  heated.length === 0 || cells.length === 0
    ? []
    : [
        {
          id: 'heat-near-cell',
          title: 'Heat near a cell',
          text: `Go by the temperature at the cell's side, at or below ${CELL_SIDE_LIMIT_CELSIUS} °C, not by the setting of the plate: runaway began at 71 °C in one test of charged pouch cells. ${RULES_FIRST}`,
          source:
            'limit: derived; onset 344 ± 5 K with a heating plug at 80 to 100 % charge: Batteries 2022, 8(5):41, abstract read',
          where: heated,
        },
      ];

const solventCautions = ({ dissolved, heated }: Hazards): Caution[] =>
  dissolved.length === 0
    ? []
    : [
        {
          id: 'solvent',
          title: heated.length > 0 ? 'Solvent vapour with heat or a spark source' : 'Solvent vapour',
          text: `Isopropyl alcohol burns from 12 °C upward, and the air over an open cup at 20 °C lies between its explosion limits (2.0 to 12.7 %). Let warm parts cool first, no spark, air moving; 10 mL in half a cubic metre around the bench is over the level dangerous to life (2000 ppm). ${RULES_FIRST}`,
          source: 'NIOSH Pocket Guide 0359, read; the rest computed from it',
          where: dissolved,
        },
      ];

const otherCautions = ({ glass, charged, mains, xRay }: Hazards): Caution[] => {
  const cautions: Caution[] = [];
  if (glass.length > 0)
    cautions.push({
      id: 'glass',
      title: 'Glass under tension',
      text: `Cover the glass and the eyes before prying; a crack runs without warning. ${RULES_FIRST}`,
      source: 'common practice, no source',
      where: glass,
    });
  if (charged.length > 0)
    cautions.push({
      id: 'stored-charge',
      title: 'Stored charge',
      text: `Unplug, wait, discharge through a resistor and measure before touching. ${RULES_FIRST}`,
      source: 'common practice, no source',
      where: charged,
    });
  if (mains.length > 0)
    cautions.push({
      id: 'mains',
      title: 'Mains',
      text: `Work on mains parts only with the plug out and where you are licensed to. ${RULES_FIRST}`,
      source: 'common practice, no source',
      where: mains,
    });
  if (xRay.length > 0)
    cautions.push({
      id: 'x-ray',
      title: 'X-ray',
      text: `Only with the set's interlocks and under the radiation rules of the place. ${RULES_FIRST}`,
      source: 'common practice, no source',
      where: xRay,
    });
  return cautions;
};
