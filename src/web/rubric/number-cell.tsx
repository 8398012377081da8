import { useState } from 'react';
import styles from './rubric-screen.module.css';

/** A number of the rubric that can be changed where it stands. */
export interface NumberCellProps {
  readonly label: string;
  readonly value: string;
  /** May this text be written? */
  readonly isRight: (text: string) => boolean;
  /** Called with every right text, as it is typed. */
  readonly onWrite: (text: string) => void;
  readonly disabled: boolean;
}

/** Takes what is typed at once where it is right; what is not stays marked, and goes when the field is left. */
export const NumberCell = ({ label, value, isRight, onWrite, disabled }: NumberCellProps) => {
  const [draft, setDraft] = useState<string>();
  const isWrong = draft !== undefined && !isRight(draft);
  return (
    <input
      className={styles.number}
      type="text"
      inputMode="decimal"
      autoComplete="off"
      aria-label={label}
      aria-invalid={isWrong || undefined}
      value={draft ?? value}
      maxLength={20}
      disabled={disabled}
      onChange={({ target }) => {
        setDraft(target.value);
        if (isRight(target.value)) onWrite(target.value.trim());
      }}
      onBlur={() => setDraft(undefined)}
    />
  );
};
