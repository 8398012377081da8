import { useId, useState } from 'react';
import { basisWords } from '#report/words/terms';
import { INTERPRETATION_TABLE } from '#schemes/eu-2023-1669/interpretations';
import type { InterpretationVerdict } from '#verdict/verdict';
import type { CurrentLaboratory } from '../laboratory/current-laboratory.ts';
import { useLaboratory } from '../laboratory/use-laboratory.ts';
import { TextField } from '../look/text-field.tsx';
import { LaboratoryChoice } from './laboratory-choice.tsx';
import type { ReadingChoice } from './reading-patch.ts';
import { effectLines, hasEffect } from './reading-words.ts';
import styles from './readings-panel.module.css';

interface ReadingsProps {
  /** Of the document the figures are of. */
  readonly readings: readonly InterpretationVerdict[];
  /** What the record on screen chooses, which may be newer. */
  readonly chosen: (id: string) => ReadingChoice | undefined;
  readonly onChoose: (choice: ReadingChoice) => void;
  readonly onForget: (id: string) => void;
  /** How the record names its laboratory. */
  readonly named: string | undefined;
}

/** The readings one can take, with what each other one would change; what matters here comes first. */
export const ReadingsPanel = ({ readings, chosen, onChoose, onForget, named }: ReadingsProps) => {
  const current = useLaboratory();
  const switches = readings.filter(({ kind }) => kind === 'switch');
  // What mattered when the screen was opened keeps its place: what one has in hand shall not move away.
  const [first] = useState(() => new Set(switches.filter(hasEffect).map(({ id: key }) => key)));
  const matters = (reading: InterpretationVerdict) => first.has(reading.id) || hasEffect(reading);
  const matter = switches.filter(matters);
  const rest = switches.filter((reading) => !matters(reading));
  const rows = (list: readonly InterpretationVerdict[]) =>
    list.map((reading) => (
      <Reading
        key={reading.id}
        {...{ reading, current, named, onChoose }}
        chosen={chosen(reading.id)}
        onForget={() => onForget(reading.id)}
      />
    ));
  return (
    <>
      <h2 id="interpretations">Interpretations that matter here</h2>
      {matter.length === 0 && <p className={styles.soft}>No other reading would change a figure.</p>}
      {rows(matter)}
      {rest.length > 0 && (
        <details className={styles.rest}>
          <summary>
            {rest.length} further {rest.length === 1 ? 'reading' : 'readings'}, without an effect here
          </summary>
          {rows(rest)}
        </details>
      )}
    </>
  );
};

interface ReadingProps {
  readonly reading: InterpretationVerdict;
  readonly chosen: ReadingChoice | undefined;
  readonly current: CurrentLaboratory;
  readonly named: string | undefined;
  readonly onChoose: (choice: ReadingChoice) => void;
  readonly onForget: () => void;
}

const Reading = ({ reading, chosen, current, named, onChoose, onForget }: ReadingProps) => {
  const { id: key, question } = reading;
  const [usual = reading.value] = valuesOf(key);
  const held = current.state === 'known' ? current.laboratory?.interpretations[key] : undefined;
  const value = chosen?.value ?? held?.reading ?? usual;
  return (
    <fieldset className={styles.reading}>
      <legend>{question}</legend>
      {valuesOf(key).map((option) => (
        <Option
          key={option}
          reading={reading}
          option={option}
          isTaken={option === value}
          // The reason given before was for the other reading.
          onTake={() => onChoose({ id: key, value: option, reason: '' })}
        />
      ))}
      <Reason
        key={`${value} ${chosen?.reason ?? ''}`}
        reason={chosen?.reason ?? ''}
        onGive={(reason) => onChoose({ id: key, value, reason })}
      />
      <LaboratoryChoice {...{ chosen, current, named, onForget }} reading={key} />
    </fieldset>
  );
};

interface OptionProps {
  readonly reading: InterpretationVerdict;
  readonly option: string;
  readonly isTaken: boolean;
  readonly onTake: () => void;
}

const Option = ({ reading, option, isTaken, onTake }: OptionProps) => {
  const group = useId();
  const isDefault = option === valuesOf(reading.id)[0];
  const other = reading.others.find(({ value }) => value === option);
  return (
    <div className={styles.option}>
      <label>
        <input type="radio" name={reading.id} checked={isTaken} onChange={onTake} aria-describedby={group} />
        <span>
          {meaningOf(reading.id, option)}
          {isDefault && <span className={styles.soft}>, our default</span>}
        </span>
      </label>
      <div id={group} className={styles.effect}>
        {isTaken && other && <p className={styles.coming}>Taken; being worked out. By the last figures:</p>}
        {isTaken && !other && <p className={styles.soft}>as read</p>}
        {other && <Effect effect={other.effect} changesLetter={other.changesLetter} />}
      </div>
    </div>
  );
};

const Effect = ({ effect, changesLetter }: { readonly effect: string; readonly changesLetter: boolean }) => {
  const lines = effectLines(effect);
  const steps = lines.flatMap((line) => line.steps.map((words) => `${nameOf(line.basis)}: ${words}`));
  return (
    <>
      {lines.map(({ basis, index }) => (
        <p key={basis}>
          {basis !== '' && <span className={styles.soft}>{nameOf(basis)}: </span>}
          {index || 'steps only'}
        </p>
      ))}
      {changesLetter && <p className={styles.letter}>Another letter.</p>}
      {steps.length > 0 && (
        <details className={styles.steps}>
          <summary>{steps.length === 1 ? 'one count of steps' : `${steps.length} counts of steps`}</summary>
          <ul>
            {steps.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
};

const Reason = ({ reason, onGive }: { readonly reason: string; readonly onGive: (reason: string) => void }) => {
  const [draft, setDraft] = useState(reason);
  const give = () => {
    if (draft.trim() !== reason) onGive(draft);
  };
  return (
    <form
      className={styles.reason}
      onBlur={give}
      onSubmit={(event) => {
        event.preventDefault();
        give();
      }}
    >
      <TextField label="reason for this reading" value={draft} onChange={setDraft} />
    </form>
  );
};

const rowOf = (key: string) => INTERPRETATION_TABLE.find((row) => row.id === key);
const valuesOf = (key: string): readonly string[] => rowOf(key)?.values ?? [];
const meaningOf = (key: string, value: string): string => rowOf(key)?.meanings[value] ?? value.replaceAll('-', ' ');
const nameOf = (basis: string): string => (basis in basisWords ? basisWords[basis as keyof typeof basisWords] : basis);
