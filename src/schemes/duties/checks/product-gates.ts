import { parseQuantity } from '#quantity/parse-quantity';
import { inUnit } from '#quantity/quantity';
import { compare, rational } from '#quantity/rational';
import { type Answer, allOf, anyOf, openAnswer, settledAnswer } from '../answer.ts';
import type { RowSubject, SwapFinding } from '../duty-subject.ts';
import { missingRole, partsOfRole } from '../parts-of-roles.ts';
import { factAnswer } from './stated.ts';

/** Greatest mass of a portable battery [kg] (Regulation (EU) 2023/1542, Art. 3(1)(9)). */
const PORTABLE_KILOGRAMS = 5n;

const massAnswer = ({ assessment }: RowSubject, id: string): Answer => {
  const mass = assessment.parts?.[id]?.mass;
  const address = `parts/${id}/mass`;
  const { quantity } = mass === undefined ? {} : parseQuantity(mass);
  const kilograms = quantity ? inUnit(quantity, 'kg')?.exact.value : undefined;
  if (!kilograms)
    return openAnswer('not on record: mass of the battery', [
      { address, what: 'mass of the battery', remedy: 'weigh it' },
    ]);
  return settledAnswer(compare(kilograms, rational(PORTABLE_KILOGRAMS)) <= 0, `battery of ${mass}`, [{ address }]);
};

/** Has the product a portable battery: sealed, 5 kg or less, not industrial, not for a vehicle (Art. 3(1)(9))? */
export const portableAnswer = (subject: RowSubject): Answer => {
  const batteries = partsOfRole(subject.assessment, 'battery');
  if (batteries === 'none') return settledAnswer(false, 'no battery', [{ address: 'parts' }]);
  if (batteries === 'unknown') return openAnswer('not on record: battery', [missingRole('battery')]);
  return allOf([
    ...batteries.map(({ id }) => massAnswer(subject, id)),
    factAnswer({ fact: 'sealed-portable-battery' }, subject),
  ]);
};

/** Is one of the listed parts serialised? No only where every one that the product has is known not to be. */
export const serialisedAnswer = (subject: RowSubject): Answer => {
  const roles = subject.parts === 'any' ? [] : subject.parts;
  const answers = roles.flatMap((role) => {
    const parts = partsOfRole(subject.assessment, role);
    if (parts === 'none') return [];
    if (parts === 'unknown') return [openAnswer(`not on record: ${role.replaceAll('-', ' ')}`, [missingRole(role)])];
    return parts.map(({ id, name }) => partAnswer(subject, id, name));
  });
  if (answers.length === 0) return settledAnswer(false, 'none of the listed parts is there', []);
  const answer = anyOf(answers);
  return answer.is === 'no' ? { ...answer, says: 'no listed part is serialised' } : answer;
};

/** Less than full function; a notice or an entry alone (E1 to E3) is not counted as that (reading ours). */
const LESS_THAN_FULL: readonly string[] = ['E4', 'E5', 'E6', 'E7'];

/** Does a finding show a part serialised, or not? Undefined where it shows neither. */
const showsSerialised = ({ cause, effect }: SwapFinding): boolean | undefined => {
  if (cause === 'pairing' && LESS_THAN_FULL.includes(effect)) return true;
  return cause === 'none' ? false : undefined;
};

/**
 * Is one part serialised (Regulation (EU) 2023/1670, Annex I(4): a code paired to one device, and software pairing needed for full
 * function)? As the record says; where it does not, as its swaps showed: paired is, accepted is not. Paired against a record that
 * denies it is open.
 */
const partAnswer = ({ assessment, swaps }: RowSubject, id: string, name: string): Answer => {
  const part = assessment.parts?.[id];
  const address = `parts/${id}/serialised`;
  const found = swaps.filter((finding) => finding.part === id && showsSerialised(finding) !== undefined);
  const shown = found.length === 0 ? undefined : found.some(showsSerialised);
  if (shown === true && part?.serialised === false)
    return openAnswer(`record and swaps contradict each other: whether the ${name} is serialised`, [
      {
        address,
        what: `whether the ${name} is serialised`,
        remedy: 'look at the runs again, and correct what is wrong',
      },
    ]);
  if (part?.serialised === undefined && shown !== undefined)
    return settledAnswer(
      shown,
      `${name} is ${shown ? '' : 'not '}serialised, by its swaps`,
      found.map(({ evidence, runs = [] }) => ({ address: `swaps/${runs[0] ?? ''}`, evidence })),
    );
  if (part?.serialised === undefined)
    return openAnswer(`not on record: whether the ${name} is serialised`, [
      { address, what: `whether the ${name} is serialised`, remedy: 'look for its code, or swap it between specimens' },
    ]);
  return settledAnswer(part.serialised, `${name} is ${part.serialised ? '' : 'not '}serialised`, [
    { address, evidence: part.evidence },
  ]);
};

const KINDS = ['security', 'corrective', 'functionality'] as const;

/** Are updates of all three kinds guaranteed for so many years? Fewer years leave it open: the text says "if they provide". */
export const updatesAnswer = (years: number, { assessment }: RowSubject): Answer =>
  allOf(
    KINDS.map((kind) => {
      const stated = assessment.supply?.software?.[kind];
      const address = `supply/software/${kind}/years`;
      const says =
        stated?.years === undefined
          ? `not on record: years of ${kind} updates`
          : `${kind} updates for ${stated.years} years, ${stated.standing ?? 'without standing'}`;
      if (stated?.standing === 'established' && (stated.years ?? 0) >= years)
        return settledAnswer(true, says, [{ address, evidence: stated.evidence, date: stated.date }]);
      return openAnswer(says, [
        {
          address,
          what: `whether ${kind} updates come for ${years} years from the last unit`,
          remedy: 'find the dated guarantee and quote its clause',
        },
      ]);
    }),
  );
