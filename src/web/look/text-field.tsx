import { type ComponentProps, useId } from 'react';
import styles from './text-field.module.css';

/** What a line of text is asked for with. */
export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly hint?: string;
  /** Why what stands there cannot be taken. */
  readonly fault?: string | undefined;
  /** Most characters; longer pastes are cut by the browser. */
  readonly most?: number;
  readonly type?: ComponentProps<'input'>['type'];
  readonly autoFocus?: boolean;
}

/** A labelled field. What is pasted is text, whatever it was; its direction follows its first strong letter. */
export const TextField = ({ label, value, onChange, hint, fault, most = 10_000, type, autoFocus }: TextFieldProps) => {
  const name = useId();
  const said = fault ?? hint;
  return (
    <div className={styles.field}>
      <label htmlFor={name}>{label}</label>
      <input
        id={name}
        type={type ?? 'text'}
        dir="auto"
        value={value}
        maxLength={most}
        autoComplete="off"
        // biome-ignore lint/a11y/noAutofocus: only where a screen was opened to fill in this very field
        autoFocus={autoFocus}
        aria-invalid={fault === undefined ? undefined : true}
        aria-describedby={said === undefined ? undefined : `${name}-said`}
        onChange={(event) => onChange(event.target.value)}
      />
      {said !== undefined && (
        <p id={`${name}-said`} className={fault === undefined ? styles.hint : styles.fault}>
          {said}
        </p>
      )}
    </div>
  );
};
