import { listed } from '#quantity/counts';
import type { MissingFact } from '#quantity/explained';
import { roleName } from '../../role-name.ts';
import { type Answer, allOf, openAnswer, settledAnswer } from '../answer.ts';
import type { ClassOnRoute, DutyRoute, ReleaseCriterion, RowSubject } from '../duty-subject.ts';
import type { ReleaseCheck } from '../duty-table.ts';
import { missingRole, partsOfRole } from '../parts-of-roles.ts';
import { roleExcused } from './offered.ts';

/** What of a route does not fit a criterion, in words; what may or may not; and what rests on it. */
interface Fit {
  readonly against: readonly string[];
  readonly doubts: readonly MissingFact[];
  readonly evidence: readonly string[];
}

const classWords = (name: string): string =>
  name === 'below-scale' ? 'of no class the law admits' : name.replaceAll('-', ' ');

/** Is a class admitted, by either class that a tool fits, at the worst and at the best that its open facts may make of it? */
const admittedEnds = <C extends string>(
  { worst, best, other }: ClassOnRoute<C>,
  admitted: ReadonlySet<string>,
): { readonly surely: boolean; readonly perhaps: boolean } => ({
  surely: admitted.has(worst) || (other !== undefined && admitted.has(other.worst)),
  perhaps: admitted.has(best) || (other !== undefined && admitted.has(other.best)),
});

const classFit = <C extends string>(met: readonly ClassOnRoute<C>[], admitted: ReadonlySet<string>): Fit => {
  const judged = met.map((one) => ({ one, ends: admittedEnds(one, admitted) }));
  const bad = judged.filter(({ ends }) => !ends.surely && !ends.perhaps).map(({ one }) => one);
  const open = judged.filter(({ ends }) => !ends.surely && ends.perhaps).map(({ one }) => one);
  return {
    against: bad.map(({ name, best }) => `${name} (${classWords(best)})`),
    doubts: open.flatMap(({ missing }) => missing),
    evidence: bad.flatMap(({ evidence }) => evidence),
  };
};

const ANY_FASTENER = new Set(['reusable', 'resupplied', 'removable']);

const hazardsAgainst = (route: DutyRoute, criterion: ReleaseCriterion): readonly string[] => [
  ...(criterion.without.has('heat') ? route.heat : []),
  ...(criterion.without.has('solvent') ? route.solvent : []),
];

/** How does one shown route fit a criterion? */
const fitOf = (route: DutyRoute, criterion: ReleaseCriterion): Fit => {
  const fasteners = classFit(route.fasteners, criterion.fasteners === 'any' ? ANY_FASTENER : criterion.fasteners);
  const tools = classFit(route.tools, criterion.tools);
  return {
    against: [...hazardsAgainst(route, criterion), ...fasteners.against, ...tools.against],
    doubts: [...fasteners.doubts, ...tools.doubts],
    evidence: [...fasteners.evidence, ...tools.evidence],
  };
};

const criterionOf = ({ fasteners, tools, without = [] }: ReleaseCheck): ReleaseCriterion => ({
  fasteners: fasteners === 'any' ? 'any' : new Set(fasteners),
  tools: new Set(tools),
  without: new Set(without),
});

interface Target {
  readonly id: string;
  readonly name: string;
}

/** Which routes fit, which do not, and what do the others hang on? */
const routesAnswer = (subject: RowSubject, { id, name }: Target, criterion: ReleaseCriterion): Answer => {
  const judged = subject.routes.routesTo(id).map((route) => ({ route, fit: fitOf(route, criterion) }));
  const ground = (route?: DutyRoute) => [{ address: `parts/${id}`, evidence: route?.evidence ?? [] }];
  const fits = judged.find(({ fit }) => fit.against.length === 0 && fit.doubts.length === 0);
  if (fits) return settledAnswer(true, `${name}: the ${fits.route.basis} route fits`, ground(fits.route));
  const reach = subject.routes.admits(id, criterion);
  if (reach === 'shown') return settledAnswer(true, `${name}: a shown route fits, though not the best found`, ground());
  const nearest = judged[0];
  const words = judged
    .map(({ route, fit }) => `${route.basis}: ${listed(fit.against)}`)
    .filter((word) => !word.endsWith(': '));
  if (reach === 'none')
    return settledAnswer(false, `${name}: no way on record fits (${words.join('; ')})`, [
      { address: `parts/${id}`, evidence: nearest?.fit.evidence ?? [] },
    ]);
  return openRoute({ id, name }, { words, doubts: judged.flatMap(({ fit }) => fit.doubts), shown: judged.length > 0 });
};

const openRoute = (
  { id, name }: Target,
  {
    words,
    doubts,
    shown,
  }: { readonly words: readonly string[]; readonly doubts: readonly MissingFact[]; readonly shown: boolean },
): Answer => {
  const missing = {
    address: `parts/${id}`,
    what: shown ? `whether another way to the ${name} fits` : `by which route the ${name} comes off`,
    remedy: shown ? 'try a way of the classes asked for' : 'take it off in a session, or record the maker’s procedure',
  };
  const facts = doubts.length > 0 ? doubts : [missing];
  const why = words.length > 0 ? ` (${words.join('; ')})` : '';
  return openAnswer(`${name}: ${shown ? 'no route that fits is shown' : 'no route is shown'}${why}`, facts, [
    { address: `parts/${id}` },
  ]);
};

const roleAnswer = (subject: RowSubject, role: string, criterion: ReleaseCriterion): Answer => {
  const excused = roleExcused(subject, role);
  if (excused) return { ...excused, says: excused.is === 'yes' ? '' : excused.says };
  const parts = partsOfRole(subject.assessment, role);
  if (parts === 'none') return settledAnswer(true, '', []);
  if (parts === 'unknown') return openAnswer(`not on record: ${roleName(role)}`, [missingRole(role)]);
  return allOf(parts.map((part) => routesAnswer(subject, part, criterion)));
};

/**
 * Is there a way to each part whose fasteners and tools are all of the classes admitted? Yes where a shown route fits; no where
 * no way on record does, open classes at their best; else open.
 */
export const releaseAnswer = (check: ReleaseCheck, subject: RowSubject): Answer => {
  const roles = subject.parts === 'any' ? [] : subject.parts;
  const criterion = criterionOf(check);
  return allOf(roles.map((role) => roleAnswer(subject, role, criterion)));
};
