import type { MissingFact } from '#quantity/explained';
import { wayKey } from '#record/log/experience';
import type { Tool } from '#record/schema/assessment';
import type { RouteSource } from '#routes/problem/from-record';
import type { ReuseClass } from '#routes/problem/route-problem';
import type { FastenerClass, Finding, ToolClass } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { classOfTool } from '../readings.ts';
import { recordName } from './record-names.ts';

/** Which class does a fastener or tool have for one part, between which ends where a fact is open, and on what does it rest? */
export interface ClassRange<C extends string> {
  readonly worst: C;
  readonly best: C;
  readonly missing: readonly MissingFact[];
  readonly evidence: readonly string[];
  readonly why: string;
}

/** What does a finding say of a range? Known where both ends agree, else open between them. */
export const findingOfRange = <C extends string>(range: ClassRange<C>): Finding<C> =>
  range.worst === range.best
    ? { state: 'known', value: range.worst, evidence: range.evidence, note: range.why }
    : { state: 'open', missing: range.missing, worst: range.worst, best: range.best };

const settled = <C extends string>(value: C, why: string, evidence: readonly string[] = []): ClassRange<C> => ({
  worst: value,
  best: value,
  missing: [],
  evidence,
  why,
});

/** A fastener or tool that may come along with the spares for a part. */
interface KitItem {
  readonly part: string;
  readonly kind: 'fasteners' | 'tools';
  readonly id: string;
}

/** Where does the record say whether an item comes along? In the first kit not seen yet; below the part where it has no spare. */
const kitAddress = (unseen: readonly string[], { part, kind, id }: KitItem): string =>
  unseen[0] === undefined ? `parts/${part}/spare/contents/${kind}/${id}` : `spares/${unseen[0]}/contents/${kind}/${id}`;

/** What comes along with the spares for a part: the fastener, the tool, or nothing shown yet? With the kits not seen yet. */
const inKit = (
  source: RouteSource,
  { part, kind, id }: KitItem,
): { answer: 'yes' | 'no' | 'open'; evidence: readonly string[]; spares: readonly string[] } => {
  const spares = Object.entries(source.assessment.spares ?? {}).filter(([, spare]) => spare.replaces.includes(part));
  const shown = spares.filter(([, spare]) => spare.contents?.standing === 'established');
  const holding = shown.find(([, spare]) => spare.contents?.[kind]?.includes(id));
  const names = spares.filter((spare) => !shown.includes(spare)).map(([name]) => name);
  if (holding) return { answer: 'yes', evidence: holding[1].contents?.evidence ?? [], spares: names };
  if (spares.length > 0 && shown.length === spares.length)
    return { answer: 'no', evidence: shown.flatMap(([, spare]) => spare.contents?.evidence ?? []), spares: names };
  return { answer: 'open', evidence: [], spares: names };
};

/** Which evidence shows what a release leaves: that of the ways of the fastener that leave this class, and of the entries that took them? */
const evidenceOfLeaving = ({ assessment, experience }: RouteSource, fastener: string, leaves: ReuseClass): string[] => {
  const ways = Object.entries(assessment.fasteners?.[fastener]?.ways ?? {}).filter(([, way]) => way.leaves === leaves);
  const ids = ways.flatMap(([id, way]) => [
    ...(way.evidence ?? []),
    ...(experience.ways.get(wayKey(fastener, id))?.entries ?? []).flatMap((address) => {
      const [, session = '', , entry = ''] = address.split('/');
      return assessment.sessions?.[session]?.entries[entry]?.evidence ?? [];
    }),
  ]);
  return [...new Set(ids)];
};

/**
 * Which fastener class is met when a fastener is released in a way that leaves this reuse class, for the points of one part?
 * Reusable as left; otherwise resupplied where it comes with the spare part at no extra cost (Annex I (18)), removable where a
 * kit was seen without it, open until a kit was seen (rows 13 and 14); one whose removal destroys it is below the scale (Annex I (19)).
 */
export const fastenerRange = (
  source: RouteSource,
  {
    part,
    fastener,
    leaves,
  }: { readonly part: string; readonly fastener: string; readonly leaves: ReuseClass | undefined },
): ClassRange<FastenerClass> => {
  const name = recordName(source.assessment, 'fasteners', fastener);
  if (leaves === 'reusable')
    return settled('reusable', 'left reusable at the bench', evidenceOfLeaving(source, fastener, leaves));
  if (leaves === 'destroyed')
    return settled(
      'below-scale',
      'its removal leaves no class of the scale',
      evidenceOfLeaving(source, fastener, leaves),
    );
  const kit = inKit(source, { part, kind: 'fasteners', id: fastener });
  if (leaves === undefined) {
    const missing = [
      {
        address: `fasteners/${fastener}/ways`,
        what: `in which class ${name} is left when released`,
        remedy: 'look at it after release and record what the way leaves',
      },
    ];
    return {
      worst: 'below-scale',
      best: 'reusable',
      missing,
      evidence: [],
      why: 'the class it is left in is not recorded',
    };
  }
  if (kit.answer === 'yes')
    return settled('resupplied', 'delivered with the spare part at no extra cost', kit.evidence);
  if (kit.answer === 'no') return settled('removable', 'not delivered with the spare part', kit.evidence);
  const missing = [
    {
      address: kitAddress(kit.spares, { part, kind: 'fasteners', id: fastener }),
      what: `whether ${name} comes with the spare part for ${recordName(source.assessment, 'parts', part)} at no extra cost`,
      remedy: 'order the spare part and look into the kit',
    },
  ];
  return { worst: 'removable', best: 'resupplied', missing, evidence: [], why: 'no kit for the part was seen' };
};

type Answer = 'yes' | 'no' | 'open';

const answerOf = (known: boolean | undefined): Answer => (known === undefined ? 'open' : known ? 'yes' : 'no');

/** Is a tool on sale, and not proprietary for its patents (Annex I (42) and (44))? One no settles it; else both must be known. */
const onOpenSale = (record: Tool | undefined): Answer => {
  const facts = [record?.onSale, record?.licensable];
  if (facts.includes(false)) return 'no';
  return facts.includes(undefined) ? 'open' : 'yes';
};

/**
 * Which tool class does a tool have, for the points of one part? Basic by the closed list (Annex I (43)), supplied with the
 * spare part, supplied with the product, or on sale (Annex I (44)); the best or the worst of those it fits (row 12). A tool
 * that the public cannot buy, or whose patents are not to be had on fair terms, is below the scale (Annex I (42)).
 */
export const toolRange = (
  source: RouteSource,
  { part, tool }: { readonly part: string; readonly tool: string },
  readings: Interpretations,
): ClassRange<ToolClass> => {
  const record = source.assessment.tools?.[tool];
  if (record?.holdingAid === true && readings['holding-aids'] === 'no-tools')
    return settled('none', 'a holding aid, no tool under this reading');
  const kit = inKit(source, { part, kind: 'tools', id: tool });
  const fits: readonly (readonly [ToolClass, Answer])[] = [
    ['basic', record?.basicKind === undefined ? 'open' : answerOf(record.basicKind !== null)],
    ['with-spare', kit.answer],
    ['with-product', answerOf(record?.withProduct)],
    ['commercial', onOpenSale(record)],
  ];
  const sure = fits.filter(([, is]) => is === 'yes').map(([name]) => name);
  const maybe = fits.filter(([, is]) => is === 'open').map(([name]) => name);
  const choices = subsets(maybe).map((extra) => classOfTool([...sure, ...extra], readings));
  const ordered = ORDER.filter((name) => choices.includes(name));
  const worst = ordered[0] ?? 'below-scale';
  const best = ordered.at(-1) ?? 'below-scale';
  const missing =
    worst === best ? [] : maybe.map((name) => missingOfClass(name, { tool, part, unseen: kit.spares, source }));
  return {
    worst,
    best,
    missing,
    evidence: [...(record?.evidence ?? []), ...kit.evidence],
    why: `fits: ${sure.length > 0 ? sure.join(', ') : 'none shown'}`,
  };
};

const ORDER: readonly ToolClass[] = ['below-scale', 'commercial', 'with-product', 'with-spare', 'basic', 'none'];

const subsets = <T>(list: readonly T[]): readonly (readonly T[])[] =>
  Array.from({ length: 2 ** list.length }, (_, mask) => list.filter((_item, index) => (mask >> index) & 1));

const missingOfClass = (
  name: ToolClass,
  at: {
    readonly tool: string;
    readonly part: string;
    readonly unseen: readonly string[];
    readonly source: RouteSource;
  },
): MissingFact => {
  const { tool, part, unseen } = at;
  const { assessment } = at.source;
  const called = recordName(assessment, 'tools', tool);
  if (name === 'basic')
    return {
      address: `tools/${tool}/basicKind`,
      what: `whether ${called} is one of the sixteen basic tools`,
      remedy: 'compare it with Regulation (EU) 2023/1669, Annex I (43)',
    };
  if (name === 'with-spare')
    return {
      address: kitAddress(unseen, { part, kind: 'tools', id: tool }),
      what: `whether ${called} comes with the spare part for ${recordName(assessment, 'parts', part)}`,
      remedy: 'order the spare part and look into the kit',
    };
  if (name === 'with-product')
    return {
      address: `tools/${tool}/withProduct`,
      what: `whether ${called} is supplied or offered free with the product`,
      remedy: 'look into the box of a sealed specimen',
    };
  return {
    address: `tools/${tool}/onSale`,
    what: `whether the public can buy ${called}, and its patents are licensed on fair terms or there are none`,
    remedy: 'show a dated offer or its absence (onSale), and what is known of patents (licensable)',
  };
};
