import type { Assessment } from '#record/schema/assessment';
import { INFORMATION_ITEMS, type InformationItem } from '../../eu-2023-1669/input.ts';
import { type Answer, allOf, openAnswer, settledAnswer } from '../answer.ts';
import type { RowSubject } from '../duty-subject.ts';

type Access = NonNullable<NonNullable<Assessment['supply']>['information']>[InformationItem];

/** What professionals get: their own access, or what end users get free. */
const professionalAccess = (access: Access, item: string) => {
  const own = access?.professionals;
  const free = access?.endUsers;
  const ofOwn = own?.standing === 'established' && own.access !== undefined;
  if (!ofOwn && free?.standing === 'established' && free.access === 'free')
    return { ...free, address: `supply/information/${item}/endUsers` };
  return ofOwn ? { ...own, address: `supply/information/${item}/professionals` } : undefined;
};

const itemAnswer = ({ assessment }: RowSubject, item: InformationItem, asks: 'offered' | 'fair-fee'): Answer => {
  const found = professionalAccess(assessment.supply?.information?.[item], item);
  const name = item.replaceAll('-', ' ');
  const missing = {
    address: `supply/information/${item}/professionals`,
    what: `on what terms professional repairers get the ${name}`,
    remedy: 'ask for it and keep the dated answer',
  };
  if (found?.access === undefined) return openAnswer(`not shown: ${name}`, [missing]);
  const says = `${name}: ${found.access.replaceAll('-', ' ')}`;
  const bad = asks === 'offered' ? found.access === 'not-offered' : found.access === 'deterring-fee';
  return settledAnswer(!bad, bad ? says : '', [found]);
};

/**
 * Do professional repairers get all eleven items of repair information (1.1(2)(e)); or, for what is offered, at a fee that is
 * fair? What is not offered has no fee.
 */
export const itemsAnswer = (asks: 'offered' | 'fair-fee', subject: RowSubject): Answer => {
  const answer = allOf(INFORMATION_ITEMS.map((item) => itemAnswer(subject, item, asks)));
  if (answer.is !== 'yes') return answer;
  return { ...answer, says: asks === 'offered' ? 'all eleven items to professional repairers' : 'no fee that deters' };
};
