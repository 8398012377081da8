import { listed } from '#quantity/counts';
import { PRIORITY_ROLES } from '#record/schema/priority-roles';
import { type Answer, allOf, type Ground, openAnswer, settledAnswer } from '../answer.ts';
import type { RowSubject, SwapFinding } from '../duty-subject.ts';
import type { EffectsCheck } from '../duty-table.ts';
import { partsOfRole } from '../parts-of-roles.ts';

/** What does each effect of the scale mean? */
const EFFECT_WORDS: Readonly<Record<SwapFinding['effect'], string>> = {
  E0: 'works without a trace',
  E1: 'works, an entry in the repair history only',
  E2: 'works, with a notice that can be dismissed at once',
  E3: 'works, with a notice that stays or returns',
  E4: 'reduced in function or performance',
  E5: 'the part is refused',
  E6: 'the device refuses to work',
  E7: 'the own part is no longer accepted when put back',
};

const words = ({ effect, firmware, pieces = [] }: SwapFinding): string => {
  const fitted = pieces.length === 0 ? '' : ` (fitted: ${pieces.join(', ')})`;
  return `${effect}, ${EFFECT_WORDS[effect]}${firmware === undefined ? '' : `, on firmware ${firmware}`}${fitted}`;
};

const standingWords = ({ standing = [] }: SwapFinding): string =>
  standing.length === 0 ? 'what does it is open' : `what does it is open: ${standing.join(' or ')}`;

/** Which parts must a swap have been made with, before the effects may be called absent? */
const partsAsked = ({ assessment, parts }: RowSubject) => {
  const roles = parts === 'any' ? PRIORITY_ROLES : parts;
  return roles.flatMap((role) => {
    const found = partsOfRole(assessment, role);
    return typeof found === 'string' ? [] : found;
  });
};

interface Found {
  readonly says: string;
  readonly name: string;
  readonly grounds: readonly Ground[];
}

const groundsOf = ({ part, runs = [], evidence, on }: SwapFinding): readonly Ground[] => {
  const more = { evidence, date: on?.slice(0, 10) };
  return runs.length === 0
    ? [{ address: `parts/${part}`, ...more }]
    : runs.map((run) => ({ address: `swaps/${run}`, ...more }));
};

/**
 * Is one finding of an effect that must not be? Open where it is not established that software does it, or where the law asks
 * for pairing and pairing is not told from a bug; where its notice was not judged; where the part may be exempt.
 */
const findingAnswer = (finding: SwapFinding, check: EffectsCheck, subject: RowSubject): Answer => {
  const { part } = finding;
  const name = subject.assessment.parts?.[part]?.name ?? part;
  const found = { says: `${name}: ${words(finding)}`, name, grounds: groundsOf(finding) };
  const { says, grounds } = found;
  if (finding.cause !== 'open' && !check.effects.includes(finding.effect)) return settledAnswer(true, says, grounds);
  return (
    exemptAnswer(found, check, subject.assessment.product.biometricParts?.includes(part)) ??
    causeAnswer(finding, check, found) ??
    alertAnswer(finding, check, found) ??
    settledAnswer(false, says, grounds)
  );
};

/** Does the part only authenticate a person? Undefined where the row exempts nothing, or the part is not exempt. */
const exemptAnswer = (
  { says, name, grounds }: Found,
  check: EffectsCheck,
  biometric: boolean | undefined,
): Answer | undefined => {
  if (!check.exempt || biometric === false) return undefined;
  if (biometric) return settledAnswer(true, `${says} (authenticates a person: exempt)`, grounds);
  const missing = {
    address: 'product/biometricParts',
    what: `whether the ${name} only authenticates a person`,
    remedy: 'record which parts do, [] for none',
  };
  return openAnswer(says, [missing], grounds);
};

/** Is it something else than the row is about that does it, or not told? Undefined where it is what the row is about. */
const causeAnswer = (finding: SwapFinding, check: EffectsCheck, { says, name, grounds }: Found): Answer | undefined => {
  const { cause } = finding;
  if (cause === 'open') {
    const missing = {
      address: 'swaps',
      what: `what makes the ${name} show ${finding.effect}`,
      remedy: 'make the runs that tell the standing explanations apart',
    };
    return openAnswer(`${says}; ${standingWords(finding)}`, [missing], grounds);
  }
  if (cause === 'calibration' && check.by === 'pairing')
    return settledAnswer(true, `${says}; it goes with a calibration that needs no authorisation`, grounds);
  if (cause === 'calibration' || (cause === 'software' && check.by === 'pairing')) {
    const what =
      cause === 'calibration'
        ? `whether ${finding.effect} of the ${name}, until a calibration that needs no authorisation, counts`
        : `whether pairing or a bug makes the ${name} show ${finding.effect}`;
    const missing = {
      address: 'swaps',
      what,
      remedy: 'tell it apart by further runs, or judge it by the text of the law',
    };
    return openAnswer(`${says}; ${cause === 'calibration' ? what : standingWords(finding)}`, [missing], grounds);
  }
  return undefined;
};

/** Does the notice mislead? Undefined where the row does not ask, or where it does mislead. */
const alertAnswer = (
  { misleading }: SwapFinding,
  check: EffectsCheck,
  { says, name, grounds }: Found,
): Answer | undefined => {
  if (!check.alert || misleading === true) return undefined;
  if (misleading === false) return settledAnswer(true, `${says}; it does not mislead`, grounds);
  const missing = {
    address: 'swaps',
    what: `whether the notice about the ${name} misleads`,
    remedy: 'judge its wording against the part fitted',
  };
  return openAnswer(says, [missing], grounds);
};

/** Which kinds of pieces asked for was a part not fitted with? Undefined where none is missing, or the row asks for none. */
const unfitted = (
  { fitted = [] }: EffectsCheck,
  { id, name }: ReturnType<typeof partsAsked>[number],
  findings: readonly SwapFinding[],
): Answer | undefined => {
  const seen = new Set(findings.flatMap(({ part, kinds = [] }) => (part === id ? kinds : [])));
  const lacking = fitted.filter((kind) => !seen.has(kind));
  if (lacking.length === 0) return undefined;
  const what = `${listed(lacking)} ${name}`;
  const missing = {
    address: 'swaps',
    what: `what the software does when a ${what} is fitted`,
    remedy: 'fit one, with its kind said, and diagnose the part',
  };
  return openAnswer(`no swap finding with a ${what}`, [missing]);
};

/**
 * Were the effects seen in any swap? Yes (none seen) only where every part asked for was swapped, with a piece of each kind that the row
 * is about. What is seen with any piece is seen.
 */
export const effectsAnswer = (check: EffectsCheck, subject: RowSubject): Answer => {
  const asked = partsAsked(subject);
  const ids = new Set(asked.map(({ id }) => id));
  const findings = subject.swaps.filter(({ part }) => subject.parts === 'any' || ids.has(part));
  const answers = findings.map((finding) => findingAnswer(finding, check, subject));
  const untried = asked.filter(({ id }) => !findings.some(({ part }) => part === id));
  const tried = asked.filter((part) => !untried.includes(part));
  answers.push(...tried.flatMap((part) => unfitted(check, part, findings) ?? []));
  if (untried.length === 0 && findings.length > 0) return allOf(answers);
  const names = untried.length === 0 ? 'a part' : listed(untried.map(({ name }) => name));
  const missing = {
    address: 'swaps',
    what: `what the software does when another ${names} is fitted`,
    remedy: 'swap between specimens with a refit control, and diagnose it',
  };
  return allOf([...answers, openAnswer(`no swap finding: ${names}`, [missing])]);
};
