import { useState } from 'react';
import { checksOf } from '#record/device/function-checks';
import type { Assessment, Swap } from '#record/schema/assessment';
import { EFFECT_WORDS } from '#swaps/diagnosis/effect-words';
import { ARM_NAMES } from '#swaps/model/fit-words';
import { keptAuthor, NOBODY_NAMED } from '../ledger/author.ts';
import { wallTime } from '../ledger/change-key.ts';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import { Button } from '../look/button.tsx';
import { SheetDialog } from '../look/sheet-dialog.tsx';
import { draftOfSwaps } from './draft-of-swaps.ts';
import { partName, pieceWords, recordedRuns, specimenName } from './recorded-runs.ts';
import type { RunDraft } from './run-draft.ts';
import { withdrawalPatch } from './run-patch.ts';
import { CHECK_WORDS, LOCK_WORDS } from './swap-words.ts';
import styles from './swaps-screen.module.css';

interface RunDialogProps {
  readonly open: OpenAssessment;
  readonly document: Assessment;
  readonly id: string;
  /** Looks at another fit of the same run. */
  readonly onLook: (id: string) => void;
  /** Puts it on the run sheet, to be corrected. */
  readonly onCorrect: (draft: RunDraft) => void;
  readonly onClose: () => void;
}

/** One fit as it is on record, laid over the page: everything that was said of it, and the way to correct it. */
export const RunDialog = (props: RunDialogProps) => {
  const { document, id, onClose } = props;
  const swap = document.swaps?.[id];
  if (!swap)
    return (
      <SheetDialog title="No such run" isOpen onClose={onClose}>
        <p>The record has no fit of this name any more.</p>
        <div>
          <Button onPress={onClose}>Back</Button>
        </div>
      </SheetDialog>
    );
  const title = `Run ${swap.run ?? 'without a number'}, ${partName(document, swap.part)}`;
  return (
    <SheetDialog title={title} isOpen onClose={onClose}>
      <dl className={styles.facts}>
        {factsOf(document, swap).map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd dir="auto">{value}</dd>
          </div>
        ))}
      </dl>
      <p className={styles.soft}>
        Place in the record: <bdi>swaps/{id}</bdi>
      </p>
      <Acts {...props} />
    </SheetDialog>
  );
};

type Fact = readonly [name: string, value: string];

const factsOf = (document: Assessment, swap: Swap): readonly Fact[] => {
  const given = (name: string, value: string | undefined): readonly Fact[] =>
    value === undefined || value === '' ? [] : [[name, value]];
  const { notice, donor } = swap;
  const names = new Map(checksOf(document, swap.part).map((check) => [check.id, check.name]));
  return [
    ['host', specimenName(document, swap.specimen)],
    ['fitted', pieceWords(document, swap)],
    ...given('its revision', donor?.revision),
    ...given('its unit', donor?.homeLock && LOCK_WORDS[donor.homeLock]),
    ...given('stage', swap.arm && ARM_NAMES[swap.arm]),
    ...given('firmware', swap.firmware),
    ...given('effect', swap.effect && `${swap.effect}, ${EFFECT_WORDS[swap.effect]}`),
    ...given('counted for', swap.effectOf === 'run' ? 'the run as a whole, not this part' : undefined),
    ...given('hidden', swap.masked ? 'by another part of the run' : undefined),
    ...Object.entries(swap.checks ?? {}).map(([key, result]): Fact => [names.get(key) ?? key, CHECK_WORDS[result]]),
    ...given('notice', notice?.wording),
    ...given('where', notice?.where),
    ...given('can be put away at once', yesNo(notice?.dismissible)),
    ...given('comes again', notice?.returns),
    ...(swap.measured ?? []).map(
      ({ of, before = 'not measured', after = 'not measured' }): Fact => [
        of,
        `${before} with the own part, ${after} fitted`,
      ],
    ),
    ...given('network', yesNo(swap.network)),
    ...given('account', swap.account),
    ...given('charge', swap.charge),
    ...given('closed up', yesNo(swap.closed)),
    ...given('grounded', yesNo(swap.grounded)),
    ...given('soak and reset kept to', yesNo(swap.settled)),
    ...given('when', swap.on),
    ...given('session', swap.session),
    ...given('by', swap.operator),
    ...given('evidence', swap.evidence?.join(', ')),
    ...given('broken off', swap.interrupted ? 'before the list was through' : undefined),
    ...given('takes the place of', swap.corrects),
    ...given('note', swap.note),
  ];
};

const yesNo = (fact: boolean | undefined): string | undefined => (fact === undefined ? undefined : fact ? 'yes' : 'no');

const Acts = ({ open, document, id, onLook, onCorrect, onClose }: RunDialogProps) => {
  const [isSure, setSure] = useState(false);
  const run = recordedRuns(document).find(({ fits }) => fits.some(([key]) => key === id));
  const fit = run?.fits.find(([key]) => key === id);
  if (!run || !fit) return <p>It does not stand any more: a later entry took its place or withdrew it.</p>;
  const withdraw = () => {
    const author = keptAuthor();
    const by = { random: Math.random, on: wallTime(), operator: author === NOBODY_NAMED ? '' : author };
    void open.change(withdrawalPatch(open.snapshot().document, [id], by), `run ${run.run} withdrawn`);
    onClose();
  };
  const correct = () => {
    const draft = draftOfSwaps(document, [fit]);
    if (draft) onCorrect(draft);
    onClose();
  };
  return (
    <>
      {run.fits.length > 1 && (
        <fieldset className={styles.same}>
          <legend>Looked at in the same run</legend>
          {run.fits.map(([key, { part }]) => (
            <Button key={key} pressed={key === id} onPress={() => onLook(key)}>
              {partName(document, part)}
            </Button>
          ))}
        </fieldset>
      )}
      <div className={styles.acts}>
        <Button main onPress={correct}>
          Correct it
        </Button>
        {isSure ? (
          <Button onPress={withdraw}>Yes, withdraw it; the entry stays on record</Button>
        ) : (
          <Button onPress={() => setSure(true)}>It did not happen</Button>
        )}
        <Button onPress={onClose}>Back</Button>
      </div>
    </>
  );
};
