import type { Swap } from '#record/schema/assessment';
import { type FitDraft, isForeign, type MeasuredDraft, type RunDraft, type Said, type StepDraft } from './run-draft.ts';

type Donor = NonNullable<Swap['donor']>;
type Optional<T> = { readonly [K in keyof T]?: T[K] | undefined };

/**
 * What a fit on the sheet is in the record. What nobody said is left out; texts stand as they were typed. Of the fit that it takes the
 * place of it keeps what the sheet has no field for.
 */
export const swapOf = (run: RunDraft, fit: FitDraft, old?: Swap): Swap => ({
  ...keptOf(old),
  specimen: run.host,
  part: fit.part,
  ...said({
    ...(fit.piece.choice === 'own' ? { fitted: 'own' } : { fitted: 'foreign', donor: donorOf(fit, old) }),
    arm: fit.arm === '' ? undefined : fit.arm,
    run: run.run,
    on: text(run.on),
    session: text(run.session),
    at: run.session === '' ? undefined : numberIn(run.at),
    operator: text(run.operator),
    firmware: text(run.firmware),
    ...seenOf(fit, old),
    calibrated: ifTrue(fit.calibrated),
    identityMoved: ifTrue(fit.identityMoved),
    pairing: pairingOf(fit),
    calibration: calibrationOf(fit),
    account: text(run.account),
    network: truth(run.network),
    charge: text(run.charge),
    closed: truth(run.closed),
    grounded: truth(run.grounded),
    soak: text(run.soak),
    settled: truth(run.settled),
    corrects: fit.corrects,
    evidence: run.evidence.length === 0 ? undefined : [...run.evidence],
    note: text(fit.note),
  } satisfies Optional<Swap>),
});

const keptOf = (old: Swap | undefined): Partial<Swap> =>
  said({ entry: old?.entry, source: old?.source, date: old?.date });

const seenOf = (fit: FitDraft, old: Swap | undefined): Optional<Swap> => ({
  effect: fit.effect === '' ? undefined : fit.effect,
  effectOf: fit.isOfRun ? 'run' : undefined,
  masked: ifTrue(fit.masked),
  notice: noticeOf(fit, old),
  measured: measuredOf(fit),
  starts: startsOf(fit),
  checks: Object.keys(fit.checks).length === 0 ? undefined : { ...fit.checks },
});

/** The members that somebody gave a value. */
const said = <T extends object>(members: T): { [K in keyof T]?: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };

const text = (typed: string): string | undefined => (typed.trim() === '' ? undefined : typed);
const ifTrue = (is: boolean): true | undefined => (is ? true : undefined);

/** Yes or no; undefined where nobody said. */
const truth = (answer: Said): boolean | undefined => (answer === '' ? undefined : answer === 'yes');

const numberIn = (typed: string): number | undefined => (typed.trim() === '' ? undefined : Number(typed));

const donorOf = ({ piece }: FitDraft, old: Swap | undefined): Donor => {
  const { choice, kind, item, revision, homeLock } = piece;
  const [from, key] = splitChoice(choice);
  const which: Optional<Donor> =
    from === 'specimen' ? { specimen: key } : { item: from === 'donor' ? key : text(item.trim()) };
  const isSame = old?.donor?.item === which.item && (which.specimen ?? old?.donor?.specimen) === old?.donor?.specimen;
  const { marking, spare, specimen } = (isSame ? old?.donor : undefined) ?? {};
  return {
    kind,
    ...said({
      marking,
      spare,
      specimen,
      ...which,
      revision: text(revision),
      homeLock: homeLock === 'unknown' ? undefined : homeLock,
    }),
  };
};

/** From where does a chosen piece come, and under which key? */
export const splitChoice = (choice: string): readonly [from: string, key: string] => {
  const at = choice.indexOf(':');
  return at < 0 ? [choice, ''] : [choice.slice(0, at), choice.slice(at + 1)];
};

const noticeOf = ({ notice }: FitDraft, old: Swap | undefined): Swap['notice'] => {
  if (notice.wording.trim() === '' && notice.where.trim() === '' && notice.returns.trim() === '') return undefined;
  return {
    wording: notice.wording,
    ...said({
      where: text(notice.where),
      about: notice.about === '' ? undefined : notice.about,
      misleading: truth(notice.misleading),
      dismissible: truth(notice.dismissible),
      returns: text(notice.returns),
      dismissedAt: old?.notice?.dismissedAt,
    }),
  };
};

/** A line of which anything was typed. */
export const isMeasured = ({ of, before, after }: MeasuredDraft): boolean => `${of}${before}${after}`.trim() !== '';

const measuredOf = ({ measured }: FitDraft): Swap['measured'] => {
  const lines = measured.filter(isMeasured);
  if (lines.length === 0) return undefined;
  return lines.map(({ of, before, after }) => ({
    of,
    ...said({ before: text(before.trim()), after: text(after.trim()) }),
  }));
};

const startsOf = ({ starts }: FitDraft): Swap['starts'] => {
  const found = said({ tried: numberIn(starts.tried), failed: numberIn(starts.failed), after: text(starts.after) });
  return Object.keys(found).length === 0 ? undefined : found;
};

const pairingOf = (fit: FitDraft): Swap['pairing'] => {
  const { remote } = fit.pairing;
  const found = said({ remote: remote === '' ? undefined : remote, ...stepOf(fit.pairing) });
  if (Object.keys(found).length > 0) return found;
  return fit.arm === 'authorised' && isForeign(fit) ? {} : undefined;
};

const calibrationOf = ({ calibration }: FitDraft): Swap['calibration'] => {
  const found = said(stepOf(calibration));
  return Object.keys(found).length === 0 ? undefined : found;
};

const stepOf = ({ by, network, account, cost }: StepDraft) => ({
  by: by === '' ? undefined : by,
  network: truth(network),
  account: truth(account),
  cost: text(cost.trim()),
});
