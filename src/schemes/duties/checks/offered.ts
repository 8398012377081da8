import type { Assessment } from '#record/schema/assessment';
import { isAvailable } from '../../eu-2023-1669/readings.ts';
import { roleName } from '../../role-name.ts';
import { type Answer, allOf, type Ground, openAnswer, settledAnswer } from '../answer.ts';
import type { RowSubject } from '../duty-subject.ts';
import { missingRole, partsOfRole } from '../parts-of-roles.ts';
import { factAnswer } from './stated.ts';

type Offer = NonNullable<NonNullable<Assessment['spares']>[string]['endUsers']>;
type Audience = 'endUsers' | 'professionals';

interface PlacedOffer extends Offer {
  readonly address: string;
}

const AUDIENCE_WORDS: Readonly<Record<Audience, string>> = {
  endUsers: 'end users',
  professionals: 'professional repairers',
};

/** The offers on record for one part to one audience: what supply says of its role, else the spares that replace it. */
const offersFor = (
  { spares, supply }: Assessment,
  { role, part, audience }: { readonly role: string; readonly part: string; readonly audience: Audience },
): readonly PlacedOffer[] => {
  const ofRole = supply?.parts?.[role as keyof NonNullable<typeof supply.parts>]?.[audience];
  if (ofRole) return [{ ...ofRole, address: `supply/parts/${role}/${audience}` }];
  return Object.entries(spares ?? {}).flatMap(([id, spare]) => {
    const offer = spare.replaces.includes(part) ? spare[audience] : undefined;
    return offer ? [{ ...offer, standing: offer.standing ?? spare.standing, address: `spares/${id}/${audience}` }] : [];
  });
};

interface Asked {
  readonly role: string;
  readonly part: string;
  readonly name: string;
  readonly audience: Audience;
}

const offerWords = ({ how, date, memberState }: Offer): string =>
  [how, memberState, date].filter((word) => word !== undefined).join(', ');

/** Can one audience get one part? An established offer shown as far as the reading `available` asks; every one refused: no. */
const offerAnswer = ({ assessment, readings }: RowSubject, asked: Asked): Answer => {
  const { role, name, audience } = asked;
  const offers = offersFor(assessment, asked).filter(({ standing, how }) => standing === 'established' && how);
  const answers = offers.map((offer) => ({ offer, is: isAvailable(offer.how ?? 'listed', readings) }));
  const whom = AUDIENCE_WORDS[audience];
  const ground = (offer: PlacedOffer): Ground => ({
    address: offer.address,
    evidence: offer.evidence,
    date: offer.date,
  });
  const good = answers.find(({ is }) => is === true);
  if (good) return settledAnswer(true, `${name} to ${whom} (${offerWords(good.offer)})`, [ground(good.offer)]);
  if (answers.length > 0 && answers.every(({ is }) => is === false))
    return settledAnswer(
      false,
      `${name} refused to ${whom} (${offerWords(answers[0]?.offer ?? {})})`,
      offers.map(ground),
    );
  const missing = {
    address: `supply/parts/${role}/${audience}`,
    what: `whether ${whom} can get the ${roleName(role)} as a spare part`,
    remedy: 'order it and keep the dated answer',
  };
  return openAnswer(`not shown: ${name} to ${whom}`, [missing], offers.map(ground));
};

/** Who gets it as end user gets it as professional too. */
const toProfessionals = (subject: RowSubject, asked: Omit<Asked, 'audience'>): Answer => {
  const own = offerAnswer(subject, { ...asked, audience: 'professionals' });
  if (own.is !== 'open') return own;
  const endUsers = offerAnswer(subject, { ...asked, audience: 'endUsers' });
  return endUsers.is === 'yes' ? endUsers : own;
};

const partAnswer = (subject: RowSubject, asked: Omit<Asked, 'audience'>, to: 'professionals' | 'both'): Answer => {
  const professionals = toProfessionals(subject, asked);
  return to === 'professionals'
    ? professionals
    : allOf([offerAnswer(subject, { ...asked, audience: 'endUsers' }), professionals]);
};

/** Does the back cover come off on every shown route to the battery? Undefined where no route is shown. */
const coversBattery = ({ assessment, routes }: RowSubject): boolean | undefined => {
  const batteries = partsOfRole(assessment, 'battery');
  const covers = partsOfRole(assessment, 'back-cover');
  if (typeof batteries === 'string' || typeof covers === 'string') return undefined;
  const shown = batteries.flatMap(({ id }) => routes.routesTo(id));
  if (shown.length === 0) return undefined;
  return shown.every(({ off }) => covers.some(({ id }) => off.includes(id)));
};

/**
 * Is a role asked for in this product? The back cover only if it has to come off for the battery, the foil only for a foldable
 * with one, the tray only with a slot from outside (1.1(1)(c)(i)). `undefined`: it is; else why not, or what leaves it open.
 */
export const roleExcused = (subject: RowSubject, role: string): Answer | undefined => {
  if (role === 'foil') return excusedBy(factAnswer({ fact: 'foil-foldable' }, subject));
  if (role === 'tray' && partsOfRole(subject.assessment, 'tray') === 'unknown')
    return excusedBy(factAnswer({ fact: 'external-card-slot' }, subject));
  if (role !== 'back-cover' || subject.assessment.product.category === 'cordless-phone') return undefined;
  const covers = coversBattery(subject);
  if (covers === true) return undefined;
  if (covers === false) return settledAnswer(true, 'the back cover need not come off for the battery', []);
  const missing = {
    address: 'parts/battery',
    what: 'whether the back cover comes off for the battery',
    remedy: 'show a route to the battery',
  };
  return openAnswer('not shown: whether the back cover comes off for the battery', [missing]);
};

const excusedBy = (condition: Answer): Answer | undefined =>
  condition.is === 'yes' ? undefined : { ...condition, is: condition.is === 'no' ? 'yes' : 'open' };

const roleAnswer = (subject: RowSubject, role: string, to: 'professionals' | 'both'): Answer => {
  const excused = roleExcused(subject, role);
  if (excused) return { ...excused, says: excused.is === 'yes' ? '' : excused.says };
  const parts = partsOfRole(subject.assessment, role);
  if (parts === 'none') return settledAnswer(true, '', []);
  if (parts === 'unknown') return openAnswer(`not on record: ${roleName(role)}`, [missingRole(role)]);
  return allOf(parts.map(({ id, name }) => partAnswer(subject, { role, part: id, name }, to)));
};

/** Can the audience get every part of these roles that the product has? */
export const offeredAnswer = (
  subject: RowSubject,
  { to, parts }: { readonly to: 'professionals' | 'both'; readonly parts?: readonly string[] },
): Answer => {
  const roles = parts ?? (subject.parts === 'any' ? [] : subject.parts);
  return allOf(roles.map((role) => roleAnswer(subject, role, to)));
};

/** Are these parts refused to end users? */
export const refusedAnswer = (subject: RowSubject, roles: readonly string[]): Answer => {
  const answers = roles.flatMap((role) => {
    const parts = partsOfRole(subject.assessment, role);
    if (typeof parts === 'string') return [openAnswer(`not on record: ${roleName(role)}`, [missingRole(role)])];
    return parts.map(({ id, name }) => offerAnswer(subject, { role, part: id, name, audience: 'endUsers' }));
  });
  const turned = answers.map((answer): Answer => {
    if (answer.is === 'open') return answer;
    return { ...answer, is: answer.is === 'yes' ? 'no' : 'yes' };
  });
  return allOf(turned);
};
