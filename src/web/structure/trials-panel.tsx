import { useId, useMemo, useState } from 'react';
import { contradictions } from '#record/log/trials';
import type { Trial } from '#record/schema/assessment';
import type { WeighedTrial } from '#routes/open-trials/open-trials';
import { isMade } from '#routes/open-trials/with-trial';
import { benchKey } from '../bench/commands/bench-key.ts';
import { wallTime } from '../ledger/change-key.ts';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import { Button } from '../look/button.tsx';
import { SelectField } from '../look/select-field.tsx';
import { nameOf, placeWords, type ReviewSource } from './review-source.ts';
import { takenBackPatch, trialPatch } from './trial-answer.ts';
import { listed, movesWords, offToTell, trialQuestion } from './trial-words.ts';
import styles from './trials-panel.module.css';
import { useOpenTrials } from './use-open-trials.ts';

/** Trials drawn at once. */
const DRAWN = 8;

interface TrialsPanelProps {
  readonly source: ReviewSource;
  readonly open: OpenAssessment;
  /** True while the verdict of the picture is worked out: the trials come after it. */
  readonly isComputing: boolean;
  /** Parts nobody answered for by sight yet. */
  readonly unanswered: number;
}

/** The trials that matter, worst first: each is answered here, and what contradicts is said with the entry that proves it. */
export const TrialsPanel = ({ source, open, isComputing, unanswered }: TrialsPanelProps) => {
  const { document, device } = source;
  const view = useOpenTrials(isComputing ? undefined : document);
  const answers = useAnswers(source, open);
  const [drawn, setDrawn] = useState(DRAWN);
  const trials = (view.answer?.trials ?? []).filter((trial) => !isMade(trial, { device }));
  const moving = trials.filter(({ moves }) => moves.length > 0);
  return (
    <section aria-labelledby="open-trials" className={styles.trials} aria-busy={view.of !== document}>
      <h2 id="open-trials">Trials that matter, worst first</h2>
      <p className={styles.soft} role="status">
        {statusWords({ isStale: view.of !== document, moving: moving.length, unanswered, ...view.answer })}
      </p>
      {trials.length > 0 && <Specimen source={source} answers={answers} />}
      <Written source={source} answers={answers} />
      <ol>
        {trials.slice(0, drawn).map((trial) => (
          <TrialItem key={keyOf(trial)} trial={trial} source={source} onAnswer={answers.write} />
        ))}
      </ol>
      {trials.length > drawn && (
        <Button onPress={() => setDrawn(trials.length)}>Show the other {trials.length - drawn}</Button>
      )}
      <Contradictions source={source} />
    </section>
  );
};

const keyOf = ({ subject, off }: WeighedTrial): string => [subject, ...off].join(' ');

const statusWords = (now: {
  readonly isStale: boolean;
  readonly moving: number;
  readonly unanswered: number;
  readonly problem?: string;
}): string => {
  if (now.isStale) return 'Being worked out …';
  if (now.problem !== undefined) return `Nothing could be worked out: ${now.problem}`;
  const sights = now.unanswered === 0 ? '' : ` A sight says more than a trial; ${now.unanswered} parts have none yet.`;
  if (now.moving === 0) return `No single trial moves a priority part.${sights}`;
  return `${now.moving === 1 ? '1 trial moves a priority part by itself' : `${now.moving} trials move a priority part, each by itself`}.${sights}`;
};

interface Answers {
  readonly specimen: string;
  readonly setSpecimen: (specimen: string) => void;
  readonly last: { readonly subject: string; readonly key: string; readonly came: Trial['came'] } | undefined;
  readonly write: (trial: WeighedTrial, came: Trial['came']) => void;
  readonly takeBack: () => void;
}

/** On which specimen trials are made, and the last one written, which can be taken back. */
const useAnswers = (source: ReviewSource, open: OpenAssessment): Answers => {
  const specimens = Object.keys(source.document.specimens ?? {});
  const [chosen, setSpecimen] = useState<string>();
  const [last, setLast] = useState<Answers['last']>();
  const specimen = chosen ?? lastSpecimen(source) ?? specimens[0] ?? '';
  const now = () => ({ document: open.snapshot().document, device: source.device });
  return {
    specimen,
    setSpecimen,
    last,
    write: (trial, came) => {
      const { subject } = trial;
      const key = benchKey('t', Date.now() / 1000, Math.random);
      const answer = { key, came, specimen: specimen === '' ? undefined : specimen, date: wallTime().slice(0, 10) };
      void open.change(trialPatch(now(), trial, answer), `trial of ${nameOf(source, subject)}: ${CAME_WORDS[came]}`);
      setLast({ subject, key, came });
    },
    takeBack: () => {
      const patch = last && takenBackPatch(now(), last.subject, last.key);
      if (patch) void open.change(patch, 'trial taken back');
      setLast(undefined);
    },
  };
};

/** The specimen of the session that began last: it is the one on the bench. */
const lastSpecimen = ({ document }: ReviewSource): string | undefined =>
  Object.values(document.sessions ?? {})
    .sort((a, b) => Date.parse(b.start) - Date.parse(a.start))
    .find(({ specimen }) => document.specimens?.[specimen])?.specimen;

const Specimen = ({ source: { document }, answers }: { readonly source: ReviewSource; readonly answers: Answers }) => {
  const specimens = Object.entries(document.specimens ?? {});
  if (specimens.length < 2) return null;
  return (
    <SelectField
      label="Tried on"
      value={answers.specimen}
      options={specimens.map(([value, { name }]) => ({ value, label: name ?? value.replaceAll('-', ' ') }))}
      onChange={answers.setSpecimen}
    />
  );
};

const CAME_WORDS: Readonly<Record<Trial['came'], string>> = {
  yes: 'came',
  no: 'did not come',
  damaged: 'came but damaged',
};

const Written = ({ source, answers }: { readonly source: ReviewSource; readonly answers: Answers }) => {
  const { last, takeBack } = answers;
  return (
    <div role="status">
      {last && (
        <p className={styles.written}>
          <span>
            <bdi>{nameOf(source, last.subject)}</bdi>: {CAME_WORDS[last.came]}, written.
            {last.came === 'damaged' && ' It counts neither way until somebody rules on it.'}
          </span>
          <Button onPress={takeBack}>Take it back</Button>
        </p>
      )}
    </div>
  );
};

interface TrialItemProps {
  readonly trial: WeighedTrial;
  readonly source: ReviewSource;
  readonly onAnswer: (trial: WeighedTrial, came: Trial['came']) => void;
}

const TrialItem = ({ trial, source, onAnswer }: TrialItemProps) => {
  const name = useId();
  const off = offToTell(trial, source);
  return (
    <li className={styles.trial}>
      <p id={name} className={styles.ask} dir="auto">
        {trialQuestion(trial, source)}
      </p>
      <p className={styles.soft}>
        Off: <span dir="auto">{off.length === 0 ? 'nothing else' : listed(off, source)}</span>.{' '}
        {movesWords(trial.moves, source)}
      </p>
      <fieldset className={styles.acts} aria-labelledby={name}>
        {(['yes', 'no', 'damaged'] as const).map((came) => (
          <Button key={came} onPress={() => onAnswer(trial, came)}>
            {SAID[came]}
          </Button>
        ))}
      </fieldset>
    </li>
  );
};

const SAID: Readonly<Record<Trial['came'], string>> = {
  yes: 'Came',
  no: 'Did not come',
  damaged: 'Came but damaged',
};

/** Where the record says that something came and that it did not, with as much off: both with the entry that proves it. */
const Contradictions = ({ source }: { readonly source: ReviewSource }) => {
  const found = useMemo(() => contradictions(source.trials), [source]);
  if (found.length === 0) return null;
  return (
    <section aria-labelledby="contradictions" className={styles.contradictions}>
      <h3 id="contradictions">
        <strong>The record contradicts itself</strong>
      </h3>
      <ul>
        {found.map(({ subject, came, didNot }) => (
          <li key={`${subject} ${came} ${didNot}`}>
            <bdi>{nameOf(source, subject)}</bdi> came: {provedBy(source, came)}. It did not, with as much off:{' '}
            {provedBy(source, didNot)}.
          </li>
        ))}
      </ul>
    </section>
  );
};

/** An entry or trial by its place; a sight as the sight it is. */
const provedBy = (source: ReviewSource, address: string): string =>
  address.includes('/') ? placeWords(source, address) : 'by the sight that is written';
