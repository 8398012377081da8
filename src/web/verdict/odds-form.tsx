import { useState } from 'react';
import type { OutlookQuestion } from '#verdict/outlook/outlook-question';
import { keptAuthor, NOBODY_NAMED } from '../ledger/author.ts';
import { Button } from '../look/button.tsx';
import { TextField } from '../look/text-field.tsx';
import styles from './questions-panel.module.css';
import type { Odds } from './use-odds.ts';
import { type TypedWeights, weightFaults } from './weight-faults.ts';

interface OddsFormProps {
  readonly question: OutlookQuestion;
  readonly odds: Odds;
  /** The odds were given or taken away, and the form goes. */
  readonly onDone: () => void;
}

/** How likely is each answer of one question, as somebody says, and whose word is it? Shares of the sum count, in any measure. */
export const OddsForm = ({ question, odds, onDone }: OddsFormProps) => {
  const [only = ''] = question.ids;
  const before = odds.given?.weights[only];
  const [typed, setTyped] = useState<TypedWeights>(() => typedBefore(question, before));
  const [by, setBy] = useState(() => odds.given?.by ?? namedAuthor());
  const [reason, setReason] = useState(odds.given?.reason ?? '');
  const [isTold, setTold] = useState(false);
  const weights = trimmed(typed);
  const faults = weightFaults(weights);
  const isReady = Object.keys(faults).length === 0 && by.trim() !== '';
  const give = () => {
    setTold(true);
    if (!isReady) return;
    const ruledOut = Object.fromEntries((question.ruledOut ?? []).map((answer) => [answer, '0']));
    void odds.give(only, { ...weights, ...ruledOut }, { by: by.trim(), reason: reason.trim() }).then(onDone);
  };
  return (
    <form
      className={styles.form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        give();
      }}
    >
      <Weights question={question} typed={typed} faults={isTold ? faults : {}} onTyped={setTyped} />
      {isTold && faults[''] !== undefined && (
        <p role="alert" className={styles.fault}>
          {faults['']}
        </p>
      )}
      <div className={styles.fields}>
        <TextField
          label="whose odds they are"
          value={by}
          onChange={setBy}
          most={200}
          fault={isTold && by.trim() === '' ? 'say whose odds they are' : undefined}
        />
        <TextField label="what they rest on" value={reason} onChange={setReason} most={2000} />
      </div>
      <p className={styles.row}>
        <Button submit main>
          Rank by these odds
        </Button>
        {before && <Button onPress={() => void odds.takeAway([only]).then(onDone)}>Take its odds away</Button>}
      </p>
    </form>
  );
};

interface WeightsProps {
  readonly question: OutlookQuestion;
  readonly typed: TypedWeights;
  readonly faults: TypedWeights;
  readonly onTyped: (typed: TypedWeights) => void;
}

/** Most answers that are given weights one by one; above that the improbable ones are ruled out together. */
const ONE_BY_ONE = 3;

const Weights = ({ question, typed, faults, onTyped }: WeightsProps) => (
  <fieldset className={styles.answers}>
    <legend>How likely each answer is, in any measure (70 and 30, or 7 and 3): only the shares of the sum count</legend>
    <div className={styles.weights}>
      {question.effects.map(({ answer, says }) => (
        <TextField
          key={answer}
          label={says}
          value={typed[answer] ?? ''}
          most={30}
          fault={faults[answer]}
          onChange={(value) => onTyped({ ...typed, [answer]: value })}
        />
      ))}
    </div>
    {question.effects.length > ONE_BY_ONE && (
      <Button onPress={() => onTyped(withNoughts(typed))}>Rule out the empty ones</Button>
    )}
  </fieldset>
);

const typedBefore = ({ effects }: OutlookQuestion, before: TypedWeights = {}): TypedWeights =>
  Object.fromEntries(effects.map(({ answer }) => [answer, before[answer] ?? '']));

/** Only at a press: an empty field alone says nothing. */
const withNoughts = (typed: TypedWeights): TypedWeights =>
  Object.fromEntries(Object.entries(typed).map(([answer, text]) => [answer, text.trim() === '' ? '0' : text]));

const trimmed = (typed: TypedWeights): TypedWeights =>
  Object.fromEntries(Object.entries(typed).map(([answer, text]) => [answer, text.trim()]));

/** Whose odds they are is asked for, never made up. */
const namedAuthor = (): string => {
  const author = keptAuthor();
  return author === NOBODY_NAMED ? '' : author;
};
