import { useEffect, useId, useRef } from 'react';
import { Button } from '../look/button.tsx';
import type { FastenerRow } from './fastener-rows.ts';
import styles from './question-panel.module.css';
import { nameOf, placeWords, type ReviewSource, shownOf } from './review-source.ts';
import { recordedSight, type SightAnswer, type SightQuestion } from './sight-answer.ts';
import { answerOf, type SightDraft, toggled } from './sight-draft.ts';
import { type SightFault, sightFaults } from './sight-faults.ts';

interface QuestionPanelProps {
  readonly source: ReviewSource;
  /** A part, or a fastener the record describes. */
  readonly subject: string;
  /** The fasteners that hold the part asked of. */
  readonly holders: readonly FastenerRow[];
  readonly question: SightQuestion;
  readonly draft: SightDraft;
  readonly onDraft: (draft: SightDraft) => void;
  readonly onWrite: (answer: SightAnswer) => void;
  readonly onChoose: (subject: string) => void;
  /** Goes to the next part or fastener nobody answered for; undefined where there is none. */
  readonly onNext: (() => void) | undefined;
}

/** "What had to be off?", asked of one part or fastener and answered by sight. What the log proves otherwise is said before it is written. */
export const QuestionPanel = (props: QuestionPanelProps) => {
  const { source, subject, question, draft, onWrite, onNext } = props;
  const answer = answerOf(draft);
  const recorded = recordedSight(subject, source.device);
  const isRecorded = answer !== 'unfinished' && JSON.stringify(answer) === JSON.stringify(recorded);
  const faults = answer === 'unfinished' ? [] : sightFaults(subject, answer, shownOf(source, subject));
  return (
    <section className={styles.panel} aria-labelledby="sight-question">
      <QuestionHead source={source} subject={subject} />
      <p className={styles.soft}>{fromWords(source, question, recorded !== undefined)}</p>
      <Kinds draft={draft} onDraft={props.onDraft} />
      {draft.kind === 'sets' && <Sets {...props} />}
      <Faults source={source} faults={faults} />
      {answer === 'unfinished' && <p>Tick at least one thing in each way, or say that nothing had to be off.</p>}
      <div className={styles.acts}>
        <Button
          main
          disabled={isRecorded || answer === 'unfinished'}
          onPress={() => answer !== 'unfinished' && onWrite(answer)}
        >
          {isRecorded ? 'As recorded' : faults.length > 0 ? 'Write it all the same' : 'Write it'}
        </Button>
        {onNext && <Button onPress={onNext}>Next without an answer</Button>}
      </div>
      <Holders {...props} />
    </section>
  );
};

/** Whoever chose a part is about to answer, so that the keyboard goes along; in another one's question it does so again. */
export const QuestionHead = ({ source, subject }: Pick<QuestionPanelProps, 'source' | 'subject'>) => {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => void (subject && heading.current?.focus()), [subject]);
  const isFastener = source.device.fasteners.has(subject);
  return (
    <h2 id="sight-question" ref={heading} tabIndex={-1}>
      <bdi>{nameOf(source, subject)}</bdi>: what had to be off{isFastener ? ' to reach it' : ''}?
    </h2>
  );
};

/** What holds the part asked of: each has its own question, since a screw can be out of reach where the part is not. */
const Holders = ({ holders, onChoose }: Pick<QuestionPanelProps, 'holders' | 'onChoose'>) =>
  holders.length > 0 && (
    <section className={styles.holders} aria-labelledby="sight-holders">
      <h3 id="sight-holders">What holds it</h3>
      <ul>
        {holders.map(({ fastener, name, sight }) => (
          <li key={fastener}>
            <button type="button" className={styles.holder} onClick={() => onChoose(fastener)}>
              <bdi>{name}</bdi>
            </button>
            <span className={styles.soft}>
              by sight, behind: <span dir="auto">{sight}</span>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );

const fromWords = (source: ReviewSource, { from }: SightQuestion, isRecorded: boolean): string => {
  if (!from) return 'No log of a specimen that began complete has it off. Everything there is can be named.';
  const when = `It came off at ${placeWords(source, from.address)}.`;
  return isRecorded
    ? `${when} What the record says is ticked.`
    : `${when} What was off then is ticked, but for what was done for another goal. Take away what did not need to be off.`;
};

const KINDS: readonly (readonly [SightDraft['kind'], string])[] = [
  ['sets', 'These had to be off'],
  ['free', 'Nothing had to be off'],
  ['unknown', 'Not known'],
];

const Kinds = ({ draft, onDraft }: Pick<QuestionPanelProps, 'draft' | 'onDraft'>) => {
  const group = useId();
  return (
    <fieldset className={styles.kinds}>
      <legend>By sight</legend>
      {KINDS.map(([kind, words]) => (
        <label key={kind} className={styles.check}>
          <input type="radio" name={group} checked={draft.kind === kind} onChange={() => onDraft({ ...draft, kind })} />
          {words}
        </label>
      ))}
    </fieldset>
  );
};

const Sets = ({ source, question: { candidates }, draft, onDraft }: QuestionPanelProps) => {
  const without = (index: number) => onDraft({ ...draft, sets: draft.sets.filter((_, place) => place !== index) });
  return (
    <>
      {draft.sets.map((set, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a way has no name of its own, and its place is what it is called by
        <fieldset key={index} className={styles.set}>
          <legend>{index === 0 ? 'All of these' : 'Or all of these'}</legend>
          {candidates.map((thing) => (
            <label key={thing} className={styles.check}>
              <input
                type="checkbox"
                checked={set.includes(thing)}
                onChange={() => onDraft(toggled(draft, { set: index, thing }, candidates))}
              />
              <bdi>{nameOf(source, thing)}</bdi>
            </label>
          ))}
          {draft.sets.length > 1 && (
            <Button quiet onPress={() => without(index)}>
              Take this way away
            </Button>
          )}
        </fieldset>
      ))}
      <Button onPress={() => onDraft({ ...draft, sets: [...draft.sets, []] })}>Or another way</Button>
    </>
  );
};

const Faults = ({ source, faults }: { readonly source: ReviewSource; readonly faults: readonly SightFault[] }) => (
  <div role="status" className={styles.faults}>
    {faults.length > 0 && (
      <>
        <p>
          <strong>The record shows otherwise:</strong>
        </p>
        <ul>
          {faults.map((fault) => (
            <li key={`${fault.kind} ${fault.address}`}>{faultWords(source, fault)}</li>
          ))}
        </ul>
      </>
    )}
  </div>
);

const faultWords = (source: ReviewSource, { kind, address, missing }: SightFault): string => {
  const where = placeWords(source, address);
  if (kind === 'did-not-come') return `${where}: it did not come, with all of this off.`;
  const names = missing.map((id) => nameOf(source, id)).join(', ');
  return `${where}: it came while ${names} was not off.`;
};
