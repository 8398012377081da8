import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import { bestBasis } from '#schemes/eu-2023-1669/bases/best-basis';
import { doubtfulOnEvery } from '#schemes/eu-2023-1669/bases/best-search';
import { declaredBasis } from '#schemes/eu-2023-1669/bases/declared-basis';
import { observedBasis } from '#schemes/eu-2023-1669/bases/observed-basis';
import type { PartBasis } from '#schemes/eu-2023-1669/bases/part-basis';
import { STEPS_WITHOUT_BOUND } from '#schemes/eu-2023-1669/index-figures';
import type { FastenerClass, Finding, ToolClass } from '#schemes/eu-2023-1669/input';
import type { Basis } from '../../verdict.ts';
import { REUSE_WORDS, TOOL_WORDS } from '../metric-kinds.ts';
import type { MetricValue } from '../metric-value.ts';
import type { MetricSource } from './metric-source.ts';

/** What would settle whether the ways on every route leave their fasteners whole? */
const looksMissing = (part: DevicePart, { groundwork }: MetricSource): readonly MissingFact[] =>
  doubtfulOnEvery(groundwork.problems, part.id).map(({ subject }) => ({
    address: `fasteners/${subject}/ways`,
    what: `what releasing ${groundwork.source.device.fasteners.get(subject)?.name ?? subject} leaves of it`,
    remedy: 'look at it after the release and record the class',
  }));

const BASIS_WORDS: Readonly<Record<Basis, string>> = {
  declared: "the maker's procedure",
  observed: 'it coming off the reference specimen',
  best: 'a route',
};

/** What does one basis say of one part, whatever its role? */
const basisOf = (part: DevicePart, basis: Basis, { groundwork, readings }: MetricSource): PartBasis | undefined => {
  const context = { source: groundwork.source, readings };
  if (basis === 'best') return bestBasis(part, groundwork.problems, context);
  return basis === 'observed' ? observedBasis(part, context) : declaredBasis(part, context);
};

/** A basis that has nothing on the part leaves everything open, no route at all included. */
const nothingOn = (part: DevicePart, basis: Basis): Pick<MetricValue, 'none' | 'missing' | 'evidence'> => ({
  none: true,
  missing: [
    {
      address: `parts/${part.id}`,
      what: `${BASIS_WORDS[basis]} for ${part.name}`,
      remedy: basis === 'declared' ? 'record the steps of the repair information' : 'take it off in a logged session',
    },
  ],
  evidence: [],
});

/**
 * May it turn out that there is no route? Where nothing bounds the steps, and on the best-found basis where a way that stands on
 * every route was not looked at: it may destroy its fastener, and then it is no way.
 */
const mayHaveNoRoute = (part: DevicePart, { wide }: PartBasis, { basis, source }: Asked): boolean => {
  const { steps } = wide;
  if (steps.state === 'open' && (steps.worst === undefined || steps.worst >= STEPS_WITHOUT_BOUND)) return true;
  return basis === 'best' && doubtfulOnEvery(source.groundwork.problems, part.id).length > 0;
};

interface Asked {
  readonly basis: Basis;
  readonly source: MetricSource;
}

/** In how many steps without pairing does a part come free on a basis? Between what is shown and what nothing excludes. */
export const stepsValue = (part: DevicePart, basis: Basis, source: MetricSource): MetricValue => {
  const found = basisOf(part, basis, source);
  if (!found) return { ...nothingOn(part, basis), range: { low: '1', high: null }, whole: true };
  const { steps, pairingSteps } = found.wide;
  if (steps.state === 'not-scorable')
    return { none: true, missing: [], evidence: steps.evidence, note: steps.why, whole: true };
  if (steps.state === 'known') {
    const value = String(steps.value - pairingEnds(pairingSteps).best);
    const none = mayHaveNoRoute(part, found, { basis, source });
    const missing = none ? looksMissing(part, source) : [];
    return { range: { low: value, high: value }, none, whole: true, missing, evidence: steps.evidence };
  }
  const pairing = pairingEnds(pairingSteps);
  const isBound = steps.worst !== undefined && steps.worst < STEPS_WITHOUT_BOUND;
  const low = Math.max(1, (steps.best ?? 1) - pairing.best);
  const high = isBound ? Math.max(low, Number(steps.worst) - pairing.worst) : null;
  return {
    range: { low: String(low), high: high === null ? null : String(high) },
    none: mayHaveNoRoute(part, found, { basis, source }),
    whole: true,
    missing: steps.missing,
    evidence: [],
  };
};

/** The steps of a finding hold pairing at the same ends; taken off again, so that pairing is weighed once, by its own metric. */
const pairingEnds = (pairing: Finding<number>): { readonly worst: number; readonly best: number } => {
  if (pairing.state === 'known') return { worst: pairing.value, best: pairing.value };
  return pairing.state === 'open' ? { worst: pairing.worst ?? 10, best: pairing.best ?? 0 } : { worst: 0, best: 0 };
};

const reuseWord: Readonly<Record<FastenerClass, string>> = {
  'below-scale': 'destroyed',
  removable: 'removable',
  resupplied: 'resupplied',
  reusable: 'reusable',
};
const toolWord: Readonly<Record<ToolClass, string>> = {
  'below-scale': 'not-on-sale',
  commercial: 'commercial',
  'with-product': 'with-product',
  'with-spare': 'with-spare',
  basic: 'basic',
  none: 'none-needed',
};

/** Which reuse class is the worst on the way to a part? */
export const reuseValue = (part: DevicePart, basis: Basis, source: MetricSource): MetricValue => {
  const found = basisOf(part, basis, source);
  if (!found) return { ...nothingOn(part, basis), words: REUSE_WORDS };
  const none = mayHaveNoRoute(part, found, { basis, source });
  const value = classValue(found.wide.fastener, reuseWord, REUSE_WORDS);
  return { ...value, none: value.none || none };
};

/** Which tool class is the worst on the way to a part? */
export const toolValue = (part: DevicePart, basis: Basis, source: MetricSource): MetricValue => {
  const found = basisOf(part, basis, source);
  if (!found) return { ...nothingOn(part, basis), words: TOOL_WORDS };
  const none = mayHaveNoRoute(part, found, { basis, source });
  const value = classValue(found.wide.tool, toolWord, TOOL_WORDS);
  return { ...value, none: value.none || none };
};

const classValue = <C extends string>(
  finding: Finding<C>,
  word: Readonly<Record<C, string>>,
  order: readonly string[],
): MetricValue => {
  if (finding.state === 'not-scorable')
    return { none: true, missing: [], evidence: finding.evidence, note: finding.why };
  if (finding.state === 'known')
    return { words: [word[finding.value]], none: false, missing: [], evidence: finding.evidence };
  const worst = finding.worst === undefined ? 0 : order.indexOf(word[finding.worst]);
  const best = finding.best === undefined ? order.length - 1 : order.indexOf(word[finding.best]);
  return {
    words: order.slice(Math.min(worst, best), best + 1),
    none: finding.worst === undefined,
    missing: finding.missing,
    evidence: [],
  };
};
