import type { MissingFact } from '#quantity/explained';
import { parseQuantity } from '#quantity/parse-quantity';
import { endsOf, inUnit, type Quantity } from '#quantity/quantity';
import { compare, dividedBy, type Rational } from '#quantity/rational';
import type { DevicePart } from '#record/device/device';
import type { Spare } from '#record/schema/assessment';
import { spareAvailability } from '#schemes/eu-2023-1669/bases/product-facts';
import type { Finding } from '#schemes/eu-2023-1669/input';
import { exactText } from '../exact-text.ts';
import type { MetricValue } from '../metric-value.ts';
import type { Role } from '../rubric-schema.ts';
import type { MetricSource } from './metric-source.ts';

/** To whom a spare may be offered, from the fewest to everybody. */
const OFFERED = ['nobody', 'professionals', 'end-users'];

/** To whom is the spare part of a role offered? The widest audience; open as far as no established offer settles it. */
export const spareOfferedValue = (role: Role, { assessment, readings }: MetricSource): MetricValue => {
  const { endUsers, professionals } = spareAvailability(assessment, role, readings);
  const possible = (finding: Finding<boolean>): readonly boolean[] =>
    finding.state === 'known' ? [finding.value] : [false, true];
  const words: readonly string[] = possible(endUsers).flatMap((end) =>
    possible(professionals).map((professional) => (end ? 'end-users' : professional ? 'professionals' : 'nobody')),
  );
  const findings = [endUsers, professionals];
  return {
    words: OFFERED.filter((word) => words.includes(word)),
    none: false,
    missing: findings.flatMap((finding) => (finding.state === 'open' ? finding.missing : [])),
    evidence: findings.flatMap((finding) => (finding.state === 'known' ? finding.evidence : [])),
  };
};

/** The spares that replace a part, and whether it is settled that there is none at all. */
export const sparesFor = (
  part: DevicePart,
  { assessment, readings }: MetricSource,
): { readonly spares: readonly (readonly [string, Spare])[]; readonly settledNone: boolean } => {
  const spares = Object.entries(assessment.spares ?? {}).filter(([, { replaces }]) => replaces.includes(part.id));
  const offered = part.role === undefined ? undefined : spareAvailability(assessment, part.role as Role, readings);
  const refused = (finding: Finding<boolean> | undefined): boolean => finding?.state === 'known' && !finding.value;
  return { spares, settledNone: refused(offered?.endUsers) && refused(offered?.professionals) };
};

/**
 * What does the cheapest spare of a part cost, over the price of the product? Exact, uncertainties and ranges of both prices
 * kept. Only a price that is established counts; another spare without one may be cheaper.
 */
export const priceRatioValue = (part: DevicePart, source: MetricSource): MetricValue => {
  const { spares, settledNone } = sparesFor(part, source);
  if (settledNone) return { none: true, missing: [], evidence: [] };
  const product = priceOf(source.assessment.product.price);
  const priced = spares.map(([id, spare]) => ({
    id,
    price: spare.standing === 'established' ? priceOf(spare.price) : undefined,
    evidence: spare.evidence ?? [],
  }));
  const ratios = priced.flatMap(({ price }) => (price && product ? (ratioOf(price, product) ?? []) : []));
  const unknown = ratios.length < spares.length || spares.length === 0;
  const low = ratios.map((ratio) => ratio.low).sort(compare)[0];
  const high = ratios.map((ratio) => ratio.high).sort(compare)[0];
  return {
    range: {
      low: unknown || !low ? '0' : exactText(low),
      high: high ? exactText(high) : null,
    },
    none: ratios.length === 0,
    missing: unknown || (low && high && compare(low, high) < 0) ? [missingPrice(part, priced, source)] : [],
    evidence: priced.flatMap(({ evidence }) => evidence),
  };
};

const priceOf = (text: string | undefined): Quantity | undefined =>
  text === undefined ? undefined : parseQuantity(text).quantity;

/** Undefined where the two are in different currencies: no rate is guessed. */
const ratioOf = (
  spare: Quantity,
  product: Quantity,
): { readonly low: Rational; readonly high: Rational } | undefined => {
  const same = inUnit(spare, product.unit.symbol);
  if (!same) return undefined;
  const [part, whole] = [endsOf(same), endsOf(product)];
  if (whole.low.numerator <= 0n) return undefined;
  return { low: dividedBy(part.low, whole.high), high: dividedBy(part.high, whole.low) };
};

const missingPrice = (
  part: DevicePart,
  priced: readonly { readonly id: string; readonly price: Quantity | undefined }[],
  { assessment }: MetricSource,
): MissingFact => {
  if (assessment.product.price === undefined)
    return { address: 'product/price', what: 'the price of the product', remedy: 'record it with its currency' };
  const without = priced.find(({ price }) => price === undefined) ?? priced[0];
  return {
    address: without === undefined ? 'spares' : `spares/${without.id}/price`,
    what: `what a spare for ${part.name} costs in the currency of the product`,
    remedy: 'find the dated offer and record price, source and standing',
  };
};
