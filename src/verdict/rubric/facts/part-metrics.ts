import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import { searchBest } from '#schemes/eu-2023-1669/bases/best-search';
import { remoteActions } from '#schemes/eu-2023-1669/bases/pairing';
import { reversibleOf } from '../../parts/performed.ts';
import { namesOf } from '../../words.ts';
import type { MetricValue } from '../metric-value.ts';
import type { MetricSource } from './metric-source.ts';

/** Was the part put back? Shown settles it; otherwise a reassembly may still show it, unless the record says it does not. */
export const reversibleValue = (part: DevicePart, { groundwork, readings }: MetricSource): MetricValue => {
  const { source, problems } = groundwork;
  const { shown } = searchBest(problems, { source, readings, part: part.id });
  const found = reversibleOf(source, part.id, {
    route: shown.kind === 'found' ? shown.actions : undefined,
    nameOf: namesOf(source.device, {}).any,
  });
  const evidence = part.record?.evidence ?? [];
  if (found.shown) return { words: ['shown'], none: false, missing: [], evidence, note: found.why };
  if (part.record?.putBack === 'not-shown')
    return { words: ['not-shown'], none: false, missing: [], evidence, note: 'the record says that it was not shown' };
  const missing: MissingFact = {
    address: `parts/${part.id}/putBack`,
    what: `whether ${part.name} goes back: ${found.why}`,
    remedy: 'put it back in a reassembly session, with the function test after it',
  };
  return { words: ['not-shown', 'shown'], none: false, missing: [missing], evidence: [] };
};

/**
 * How many remote actions does full function need after the part is replaced: a notification, an authorisation? As the record
 * says, or as its swaps settled it.
 */
export const pairingValue = (part: DevicePart, { groundwork }: Pick<MetricSource, 'groundwork'>): MetricValue => {
  const actions = remoteActions(groundwork.source, part.id);
  const open = actions.filter(({ needed }) => needed === undefined);
  const sure = actions.filter(({ needed }) => needed === true).length;
  return {
    range: { low: String(sure), high: String(sure + open.length) },
    none: false,
    whole: true,
    missing: open.flatMap(({ missing }) => missing),
    evidence: [...new Set([...(part.record?.evidence ?? []), ...actions.flatMap(({ evidence }) => evidence)])],
  };
};
