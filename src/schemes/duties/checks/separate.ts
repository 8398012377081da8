import { listed } from '#quantity/counts';
import { roleName } from '../../role-name.ts';
import { type Answer, allOf, openAnswer, settledAnswer } from '../answer.ts';
import type { RowSubject } from '../duty-subject.ts';
import type { SeparateCheck } from '../duty-table.ts';
import { missingRole, partsOfRole } from '../parts-of-roles.ts';
import { figureAnswer, ingressAnswer } from './stated.ts';

type Spares = NonNullable<RowSubject['assessment']['spares']>;

/** Which listed roles does a spare bring? Those of the parts it replaces and includes. */
const rolesIn = ({ assessment, parts }: RowSubject, spare: Spares[string]): ReadonlySet<string> => {
  const listed = parts === 'any' ? [] : parts;
  const ids = [...spare.replaces, ...(spare.includes ?? [])];
  const roles = ids.flatMap((id) => assessment.parts?.[id]?.role ?? []);
  return new Set(roles.filter((role) => listed.includes(role)));
};

const within = (set: ReadonlySet<string>, allowed: readonly string[]): boolean =>
  [...set].every((role) => allowed.includes(role));

/** Small parts in a larger assembly need its endurance figures. */
const largerAnswer = (subject: RowSubject, check: SeparateCheck, says: string): Answer => {
  const asked = check.larger[subject.assessment.product.category ?? ''];
  if (!asked) return settledAnswer(false, says, []);
  return allOf([
    ...(asked.ingress === undefined ? [] : [ingressAnswer(asked.ingress, subject)]),
    figureAnswer({ kind: 'figure', figure: 'power-button-presses', atLeast: asked.power }, subject),
    figureAnswer({ kind: 'figure', figure: 'volume-button-presses', atLeast: asked.volume }, subject),
    figureAnswer({ kind: 'figure', figure: 'port-cycles', atLeast: asked.port }, subject),
  ]);
};

/** Is one spare with its listed roles sold as the rule allows? */
const spareAnswer = (
  subject: RowSubject,
  check: SeparateCheck,
  { id, spare, roles }: { readonly id: string; readonly spare: Spares[string]; readonly roles: ReadonlySet<string> },
): Answer => {
  const ground = {
    address: `spares/${id}`,
    evidence: [...(spare.evidence ?? []), ...(spare.professionals?.evidence ?? [])],
    date: spare.date ?? spare.professionals?.date ?? spare.endUsers?.date,
  };
  const says = `${spare.name}: ${listed([...roles].map(roleName))}`;
  if (roles.size < 2 || check.together.some((allowed) => within(roles, allowed)))
    return settledAnswer(true, `${says}${roles.size < 2 ? ' alone' : ''}`, [ground]);
  const large = [...roles].filter((role) => !check.small.includes(role));
  if (large.length > 1) return settledAnswer(false, `${says} only together`, [ground]);
  const answer = largerAnswer(subject, check, says);
  return { ...answer, says: `${says} only together; ${answer.says}`, facts: [ground.address, ...answer.facts] };
};

const roleAnswer = (subject: RowSubject, check: SeparateCheck, role: string): Answer => {
  const parts = partsOfRole(subject.assessment, role);
  if (parts === 'none') return settledAnswer(true, '', []);
  if (parts === 'unknown') return openAnswer(`not on record: ${roleName(role)}`, [missingRole(role)]);
  return allOf(parts.map(({ id, name }) => partAnswer(subject, check, { id, name })));
};

/** Of the spares that replace a part, one that is sold as allowed is enough. */
const partAnswer = (
  subject: RowSubject,
  check: SeparateCheck,
  { id: part, name }: { readonly id: string; readonly name: string },
): Answer => {
  const all = Object.entries(subject.assessment.spares ?? {}).filter(([, spare]) => spare.replaces.includes(part));
  const sold = all.filter(([, spare]) => spare.standing === 'established');
  const answers = sold.map(([id, spare]) => spareAnswer(subject, check, { id, spare, roles: rolesIn(subject, spare) }));
  const good = answers.find(({ is }) => is === 'yes');
  if (good) return good;
  if (answers.length > 0 && answers.every(({ is }) => is === 'no')) return allOf(answers);
  const missing = {
    address: 'spares',
    what: `whether the ${name} is sold by itself`,
    remedy: 'record the spare as sold, with what it replaces and includes',
  };
  return openAnswer(`not shown: ${name} sold by itself`, [missing, ...answers.flatMap((answer) => answer.missing)]);
};

/** Is every listed part sold by itself, apart from what the rule lets come together (1.1(1)(b))? */
export const separateAnswer = (check: SeparateCheck, subject: RowSubject): Answer => {
  const roles = subject.parts === 'any' ? [] : subject.parts;
  return allOf(roles.map((role) => roleAnswer(subject, check, role)));
};
