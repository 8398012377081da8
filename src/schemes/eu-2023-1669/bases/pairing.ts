import type { MissingFact } from '#quantity/explained';
import type { Assessment } from '#record/schema/assessment';
import type { Finding } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { pairingSteps } from '../readings.ts';

type Answer = boolean | undefined;

/** What does the record say of the remote actions one part needs for full function? A logged or documented action shows the need. */
const remoteNeeds = (
  assessment: Assessment,
  part: string,
): { notification: Answer; authorisation: Answer; evidence: readonly string[] } => {
  const record = assessment.parts?.[part];
  const notification = record?.remoteNotification ?? (record?.serialised === false ? false : undefined);
  const authorisation = record?.remoteAuthorisation ?? (record?.serialised === false ? false : undefined);
  return { notification, authorisation, evidence: record?.evidence ?? [] };
};

/**
 * How many steps does pairing add to a part? Five for each remote notification or authorisation needed for full function
 * (Annex IV point 5); open between its ends while one of the two is not known.
 */
export const pairingFinding = (assessment: Assessment, part: string, readings: Interpretations): Finding<number> => {
  const { notification, authorisation, evidence } = remoteNeeds(assessment, part);
  const steps = (n: boolean, a: boolean): number =>
    pairingSteps({ notifications: n ? 1 : 0, authorisations: a ? 1 : 0 }, readings);
  const best = steps(notification ?? false, authorisation ?? false);
  const worst = steps(notification ?? true, authorisation ?? true);
  if (best === worst) return { state: 'known', value: best, evidence };
  const missing: MissingFact[] = [];
  if (notification === undefined) missing.push(missingRemote(part, 'remoteNotification', 'a remote notification'));
  if (authorisation === undefined) missing.push(missingRemote(part, 'remoteAuthorisation', 'a remote authorisation'));
  return { state: 'open', missing, worst, best };
};

const missingRemote = (part: string, field: string, what: string): MissingFact => ({
  address: `parts/${part}/${field}`,
  what: `whether a replacement for ${part} needs ${what} for full function`,
  remedy: 'fit a foreign part and its own part again, and see what the software asks for',
});
