import { useId, useRef, useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { effectGroups, narrowingWords, oddsWords } from '#report/words/outlook-words';
import { basisWords } from '#report/words/terms';
import type { Outlook } from '#verdict/outlook/outlook';
import type { OutlookQuestion } from '#verdict/outlook/outlook-question';
import { spanWords } from '#verdict/outlook/shown-span';
import { keepAuthor, keptAuthor, NOBODY_NAMED } from '../ledger/author.ts';
import { Button } from '../look/button.tsx';
import { SelectField } from '../look/select-field.tsx';
import { TextField } from '../look/text-field.tsx';
import { OddsForm } from './odds-form.tsx';
import { OddsNote } from './odds-note.tsx';
import styles from './questions-panel.module.css';
import { speltOut } from './spelt-out.ts';
import type { Answers } from './use-answers.ts';
import type { Odds } from './use-odds.ts';

interface QuestionsProps {
  readonly outlook: Outlook | undefined;
  /** In words, of which revision the questions are, or that they are being worked out. */
  readonly state: string;
  readonly document: Assessment;
  readonly answers: Answers;
  readonly odds: Odds;
}

/** What to settle next: the open questions, best first, with what each answer would leave; answered here, and given odds. */
export const QuestionsPanel = ({ outlook, state, document, answers, odds }: QuestionsProps) => {
  const questions = odds.list?.questions ?? outlook?.questions ?? [];
  const open = questions.filter(({ effects }) => effects.some(answers.fits));
  const basis = outlook?.rankedBy;
  const heading = useRef<HTMLHeadingElement>(null);
  return (
    <section aria-labelledby="settle-next">
      <h2 id="settle-next" ref={heading} tabIndex={-1}>
        What to settle next
      </h2>
      <p className={styles.intro} role="status">
        {basis === undefined || open.length === 0 ? '' : `Ranked on the basis ${basisWords[basis]}: `}
        {open.length > 0 && 'by guaranteed narrowing of R a minute, then of steps'}
        {open.length > 0 && (odds.list ? ', then by the odds. ' : '. ')}
        {open.length > 0 && 'The minutes are assumptions. '}
        {state}
      </p>
      <Written answers={answers} />
      {(open.length > 0 || odds.kept) && <OddsNote odds={odds} />}
      {outlook && open.length === 0 && <p>No question with a list of answers is open{withoutWords(outlook)}.</p>}
      <ol className={styles.list}>
        {open.map((question) => (
          <Question
            key={question.ids.join(' ')}
            question={question}
            document={document}
            answers={answers}
            odds={odds}
            onWritten={() => heading.current?.focus()}
          />
        ))}
      </ol>
    </section>
  );
};

const withoutWords = ({ bases }: Outlook): string => {
  const left = [...new Set(bases.flatMap(({ withoutAnswers }) => withoutAnswers))];
  return left.length === 0 ? '' : `; what no list of answers covers: ${left.join('; ')}`;
};

const Written = ({ answers: { written, takeBack } }: { readonly answers: Answers }) => {
  const last = written.at(-1);
  return (
    <div role="status">
      {last && (
        <p className={styles.written}>
          <span>
            Written: <bdi>{last.asks}</bdi>: {last.says}.
          </span>
          <Button onPress={takeBack}>Take it back</Button>
        </p>
      )}
    </div>
  );
};

interface QuestionProps {
  readonly question: OutlookQuestion;
  readonly document: Assessment;
  readonly answers: Answers;
  readonly odds: Odds;
  /** The question goes away with its answer, and the focus must not. */
  readonly onWritten: () => void;
}

const Question = (props: QuestionProps) => {
  const { question, odds, onWritten } = props;
  const [opened, setOpened] = useState<'answer' | 'odds'>();
  const name = useId();
  const asks = question.asks.join(' and ');
  const toggle = (form: 'answer' | 'odds') => setOpened(opened === form ? undefined : form);
  const [only = '', ...others] = question.ids;
  const hasOdds = odds.given?.weights[only] !== undefined;
  return (
    <li className={styles.question} aria-labelledby={name}>
      <div className={styles.head}>
        <h3 id={name} dir="auto">
          {asks}
        </h3>
        <span className={styles.acts}>
          {others.length === 0 && (
            <Button onPress={() => toggle('odds')} pressed={opened === 'odds'} label={`Odds of its answers: ${asks}`}>
              Odds
            </Button>
          )}
          <Button onPress={() => toggle('answer')} pressed={opened === 'answer'} label={`Answer it: ${asks}`}>
            Answer it
          </Button>
        </span>
      </div>
      <p className={styles.soft}>
        {question.remedies.join('; ')}. About {question.minutes} min; {narrowingWords(question)}.
      </p>
      {oddsWords(question).map((words) => (
        <p key={words} className={styles.soft}>
          By the odds {words}.
        </p>
      ))}
      {opened === 'answer' && <AnswerForm {...props} />}
      {opened === 'odds' && (
        <OddsForm
          // Odds given meanwhile, from a file or in another window, are what the fields start from.
          key={String(hasOdds)}
          question={question}
          odds={odds}
          onDone={() => {
            setOpened(undefined);
            onWritten();
          }}
        />
      )}
      {opened === undefined && <Effects question={question} />}
    </li>
  );
};

const Effects = ({ question }: { readonly question: OutlookQuestion }) => (
  <dl className={styles.effects}>
    {effectGroups(question).map(({ answers, leaves }) => (
      <div key={leaves.answer}>
        <dt>{speltOut(answers)}</dt>
        <dd>{spanWords(leaves)}</dd>
      </div>
    ))}
  </dl>
);

/** Who answered is asked for, never made up. */
const namedAuthor = (): string => {
  const author = keptAuthor();
  return author === NOBODY_NAMED ? '' : author;
};

const AnswerForm = ({ question, document, answers, onWritten }: QuestionProps) => {
  const group = useId();
  const [answer, setAnswer] = useState<string>();
  const [by, setBy] = useState(namedAuthor);
  const [evidence, setEvidence] = useState('');
  const [note, setNote] = useState('');
  const effect = question.effects.find((candidate) => candidate.answer === answer);
  const isReady = effect !== undefined && by.trim() !== '' && answers.fits(effect);
  const write = () => {
    if (!isReady || !effect) return;
    const shown = evidence === '' ? [] : [evidence];
    keepAuthor(by);
    answers.write({ question, effect, by: by.trim(), evidence: shown, note: note.trim() });
    onWritten();
  };
  return (
    <form
      className={styles.form}
      onSubmit={(event) => {
        event.preventDefault();
        write();
      }}
    >
      <fieldset className={styles.answers}>
        <legend>What was found</legend>
        {question.effects.map(({ answer: key, says, ...span }) => (
          <div key={key} className={styles.option}>
            <label>
              <input
                type="radio"
                name={group}
                checked={key === answer}
                onChange={() => setAnswer(key)}
                aria-describedby={`${group}-${key}`}
              />
              <span>{says}</span>
            </label>
            <span id={`${group}-${key}`} className={styles.soft}>
              {spanWords(span)}
            </span>
          </div>
        ))}
      </fieldset>
      <div className={styles.fields}>
        <TextField label="found by" value={by} onChange={setBy} most={200} />
        <SelectField
          label="evidence that shows it"
          value={evidence}
          options={[{ value: '', label: 'none' }, ...evidenceOptions(document)]}
          onChange={setEvidence}
        />
        <TextField label="note" value={note} onChange={setNote} />
      </div>
      <Button submit main disabled={!isReady}>
        Write the answer
      </Button>
    </form>
  );
};

const evidenceOptions = ({ evidence = {} }: Assessment) =>
  Object.entries(evidence).map(([value, { says }]) => ({
    value,
    label: says === undefined ? value : `${value}: ${says}`,
  }));
