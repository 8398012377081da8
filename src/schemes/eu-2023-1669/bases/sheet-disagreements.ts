import type { DevicePart } from '#record/device/device';
import { procedureFor } from '#routes/sequence/declared';
import { type Finding, type PartFinding, PRIORITY_ROLES, type PriorityRole } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { FASTENER_ORDER, TOOL_ORDER } from './basis-rules.ts';
import { sheetFinding } from './declared-basis.ts';
import type { IndexSource } from './pairing.ts';
import type { PartBasis } from './part-basis.ts';

/** A place where the maker's score sheet and the maker's procedures say different things, in words. */
export interface SheetDisagreement {
  /** Id path of the line's field in the score sheet. */
  readonly path: string;
  readonly text: string;
}

/** What is compared: the record's source, the readings, its priority parts, and what their procedures gave by part id. */
interface Comparison {
  readonly source: IndexSource;
  readonly readings: Interpretations;
  readonly parts: readonly DevicePart[];
  readonly judged: ReadonlyMap<string, PartBasis>;
}

/**
 * Where do the maker's own documents contradict each other? A score sheet speaks of the lowest part of a role; it contradicts
 * the procedures where no answer to what is open makes the two agree. What one procedure gives, the sheet cannot better;
 * falling short of it is no contradiction while another part of the role has no procedure.
 */
export const sheetDisagreements = (comparison: Comparison): readonly SheetDisagreement[] =>
  PRIORITY_ROLES.flatMap((role) => {
    const parts = comparison.parts.filter((part) => part.role === role);
    const judged = parts.flatMap((part) => comparison.judged.get(part.id)?.main ?? []);
    // With one instance lowest in all, a single score of it may be higher than that of another instance.
    const incomparable = parts.length > 1 && comparison.readings['duplicated-part'] === 'lowest-instance';
    const { source, readings } = comparison;
    const [only, another] = parts;
    const sheet = sheetFinding(role, { source, readings, ...(only && !another ? { part: only } : {}) });
    if (!sheet || judged.length === 0 || incomparable) return [];
    return rolesDisagreements(role, { sheet, judged, complete: judged.length === parts.length }, comparison);
  });

interface RoleFigures {
  readonly sheet: PartFinding;
  readonly judged: readonly PartFinding[];
  /** Has every part of the role a procedure? */
  readonly complete: boolean;
}

const rolesDisagreements = (
  role: PriorityRole,
  { sheet, judged, complete }: RoleFigures,
  { source }: Comparison,
): readonly SheetDisagreement[] => {
  const procedures = judged.flatMap(({ part }) => procedureFor(source, part ?? '')?.[0] ?? []);
  const compared = <T>(field: 'steps' | 'fastener' | 'tool', of: Reading<T>): SheetDisagreement | undefined => {
    const [declared, ...given] = [sheet, ...judged].map((finding) => endsOf(of.pick(finding), of.badness));
    if (!declared || given.length === 0 || given.includes(undefined)) return undefined;
    const ends = given as readonly Ends[];
    const atBest = Math.max(...ends.map(({ best }) => best));
    const atWorst = complete ? Math.max(...ends.map(({ worst }) => worst)) : Number.POSITIVE_INFINITY;
    if (declared.worst >= atBest && declared.best <= atWorst) return undefined;
    const [says, gives] = [declared, { best: atBest, worst: Math.max(...ends.map(({ worst }) => worst)) }];
    const where = procedures.map((id) => `procedures/${id}`).join(' and ');
    return {
      path: `product/scoreSheet/parts/${role}/${field}`,
      text: `the score sheet declares ${of.words(says)} for the ${role.replaceAll('-', ' ')}, ${where} ${procedures.length > 1 ? 'give' : 'gives'} ${of.words(gives)}; what the procedures give is used`,
    };
  };
  return [compared('steps', STEPS), compared('fastener', FASTENER), compared('tool', TOOL)].flatMap(
    (disagreement) => disagreement ?? [],
  );
};

/** Two ends of a figure by how bad it is: steps as they are, classes by their place from the best on. */
interface Ends {
  readonly best: number;
  readonly worst: number;
}

interface Reading<T> {
  readonly pick: (finding: PartFinding) => Finding<T>;
  readonly badness: (value: T) => number;
  readonly words: (ends: Ends) => string;
}

const endsOf = <T>(finding: Finding<T>, badness: (value: T) => number): Ends | undefined => {
  if (finding.state === 'known') return { best: badness(finding.value), worst: badness(finding.value) };
  if (finding.state !== 'open' || finding.best === undefined || finding.worst === undefined) return undefined;
  return { best: badness(finding.best), worst: badness(finding.worst) };
};

const spanned = ({ best, worst }: Ends, word: (badness: number) => string): string =>
  best === worst ? word(best) : `${word(best)} to ${word(worst)}`;

const STEPS: Reading<number> = {
  pick: ({ steps }) => steps,
  badness: (steps) => steps,
  words: (ends) => `${spanned(ends, String)} ${ends.worst === 1 ? 'step' : 'steps'}`,
};

const classReading = <C extends string>(
  pick: (finding: PartFinding) => Finding<C>,
  order: readonly C[],
  noun: string,
): Reading<C> => ({
  pick,
  badness: (name) => order.length - order.indexOf(name),
  words: (ends) => `${noun} ${spanned(ends, (badness) => order[order.length - badness] ?? '')}`,
});

const FASTENER = classReading(({ fastener }) => fastener, FASTENER_ORDER, 'fastener class');
const TOOL = classReading(({ tool }) => tool, TOOL_ORDER, 'tool class');
