import { deviceOf } from '#record/device/device';
import type { Assessment } from '#record/schema/assessment';
import { cautionsOf } from '#verdict/cautions';
import type { Caution } from '#verdict/verdict';
import type { RunDraft } from './run-draft.ts';

const RULES_FIRST = 'Local rules and licensed practice come first.';

const STATIC: Caution = {
  id: 'static',
  title: 'Static',
  text: `Strap and mat on before a contact is touched; pieces lie in shielding bags between fits. What a discharge harms looks like a refusal afterwards. ${RULES_FIRST}`,
  source: 'common practice, no source',
  where: [],
};

const OPEN_POWERED: Caution = {
  id: 'open-powered',
  title: 'Opened device under power',
  text: `This run starts with the specimen open. Nothing of metal over it, no contact touched or parted while it is on; switch off and unplug the battery connector first, before the next fit. ${RULES_FIRST}`,
  source: 'common practice, no source',
  where: [],
};

/** Which of the device's cautions concern a run that opens it: the cell's own, a harmed cell, and those of the parts that are handled. */
const ALWAYS: readonly string[] = ['harmed-cell', 'lithium-cell'];

/** The record as far as it concerns one specimen: the charge and the damage of others are not this run's. */
const ofHost = (document: Assessment, host: string): Assessment => {
  const { specimens = {}, damage = {} } = document;
  const harmed = Object.entries(damage).filter(([, { specimen }]) => specimen === undefined || specimen === host);
  return {
    ...document,
    specimens: specimens[host] ? { [host]: specimens[host] } : {},
    damage: Object.fromEntries(harmed),
  };
};

/**
 * Which cautions come before a run? An unopened specimen that is only started calls for those of a harmed cell alone. Whoever opens it
 * has the cell, static, and whatever lies with the parts that are handled; an open start has its own, before everything else.
 */
export const runCautions = (document: Assessment, run: RunDraft): readonly Caution[] => {
  const all = cautionsOf({ assessment: ofHost(document, run.host), device: deviceOf(document) });
  const isOpened = run.fits.some(({ arm }) => arm !== 'baseline');
  const handled = new Set(run.fits.map(({ part }) => part));
  const own = all.filter(({ id, where }) =>
    isOpened ? ALWAYS.includes(id) || where.some((part) => handled.has(part)) : id === 'harmed-cell',
  );
  const openStart = run.closed === 'no' ? [OPEN_POWERED] : [];
  return [...openStart, ...own, ...(isOpened ? [STATIC] : [])];
};
