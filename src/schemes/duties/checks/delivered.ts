import { parseQuantity } from '#quantity/parse-quantity';
import { inUnit } from '#quantity/quantity';
import { roleName } from '../../role-name.ts';
import { type Answer, allOf, openAnswer, settledAnswer } from '../answer.ts';
import { laterBy } from '../day.ts';
import type { RowSubject } from '../duty-subject.ts';
import { missingRole, partsOfRole } from '../parts-of-roles.ts';

type Spare = NonNullable<RowSubject['assessment']['spares']>[string];

/** How long may a delivery take [working days]? */
export interface DeliveryTerms {
  readonly firstYears: number;
  readonly within: number;
  readonly afterwards: number;
}

/**
 * Between which numbers of working days does a delivery lie? As counted; of calendar days only the upper end is known: no more
 * working days than days.
 */
const workingDays = (spare: Spare): { readonly least: number; readonly most: number } | undefined => {
  if (spare.deliveryWorkingDays !== undefined)
    return { least: spare.deliveryWorkingDays, most: spare.deliveryWorkingDays };
  const { quantity } = spare.delivery === undefined ? {} : parseQuantity(spare.delivery);
  const days = quantity && inUnit(quantity, 'd');
  if (!days) return undefined;
  return { least: 0, most: Math.ceil(days.high ?? days.value + (days.uncertainty ?? 0)) };
};

const dayOf = (spare: Spare): string | undefined => spare.date ?? spare.professionals?.date ?? spare.endUsers?.date;

const deliveryWords = (spare: Spare): string =>
  spare.deliveryWorkingDays === undefined
    ? `${spare.delivery ?? 'not stated'}`
    : `${spare.deliveryWorkingDays} working days`;

/** Which number of working days holds on a day? Undefined where the first placing or the day is not known. */
const limitOn = (day: string | undefined, placed: string | undefined, terms: DeliveryTerms): number | undefined => {
  if (day === undefined || placed === undefined) return undefined;
  return day < laterBy(placed, { years: terms.firstYears }) ? terms.within : terms.afterwards;
};

const spareAnswer = (subject: RowSubject, terms: DeliveryTerms, [id, spare]: readonly [string, Spare]): Answer => {
  const address = `spares/${id}/deliveryWorkingDays`;
  const day = dayOf(spare);
  const evidence = spare.evidence ?? spare.professionals?.evidence ?? spare.endUsers?.evidence;
  const ground = { address: `spares/${id}`, evidence, date: day };
  const days = workingDays(spare);
  const missing = {
    address,
    what: `in how many working days ${spare.name} is delivered`,
    remedy: 'order it and count',
  };
  if (days === undefined) return openAnswer(`not on record: delivery of ${spare.name}`, [missing]);
  const limit = limitOn(day, subject.assessment.product.firstPlaced, terms);
  const says = `${spare.name} in ${deliveryWords(spare)}${limit === undefined ? '' : `, asked ${limit} working days or less`}`;
  if (days.most <= (limit ?? terms.within)) return settledAnswer(true, says, [ground]);
  if (days.least > (limit ?? terms.afterwards)) return settledAnswer(false, says, [ground]);
  return openAnswer(says, [missing], [ground]);
};

const roleAnswer = (subject: RowSubject, terms: DeliveryTerms, role: string): Answer => {
  const { assessment } = subject;
  const parts = partsOfRole(assessment, role);
  if (parts === 'none') return settledAnswer(true, '', []);
  if (parts === 'unknown') return openAnswer(`not on record: ${roleName(role)}`, [missingRole(role)]);
  return allOf(
    parts.map(({ id, name }) => {
      const sold = Object.entries(assessment.spares ?? {}).filter(
        ([, spare]) => spare.replaces.includes(id) && spare.standing === 'established',
      );
      const missing = {
        address: 'spares',
        what: `how fast the ${name} is delivered`,
        remedy: 'order it and count the working days',
      };
      if (sold.length === 0) return openAnswer(`not on record: delivery of ${name}`, [missing]);
      return allOf(sold.map((entry) => spareAnswer(subject, terms, entry)));
    }),
  );
};

/** Is every listed part delivered in time (1.1(3)(a))? The first years are counted from the first placing (reading ours). */
export const deliveredAnswer = (terms: DeliveryTerms, subject: RowSubject): Answer => {
  const roles = subject.parts === 'any' ? [] : subject.parts.filter((role) => role !== 'tray' || hasTray(subject));
  return allOf(roles.map((role) => roleAnswer(subject, terms, role)));
};

const hasTray = ({ assessment }: RowSubject): boolean => typeof partsOfRole(assessment, 'tray') !== 'string';
