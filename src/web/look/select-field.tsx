import { useId } from 'react';
import styles from './text-field.module.css';

/** One of several, by the browser's own list: it is the one every phone, reader and keyboard knows. */
export interface SelectFieldProps<Value extends string> {
  readonly label: string;
  readonly value: Value;
  readonly options: readonly { readonly value: Value; readonly label: string }[];
  readonly onChange: (value: Value) => void;
}

/** A labelled choice of one. */
export const SelectField = <Value extends string>({ label, value, options, onChange }: SelectFieldProps<Value>) => {
  const name = useId();
  return (
    <div className={styles.field}>
      <label htmlFor={name}>{label}</label>
      <select
        id={name}
        className={styles.select}
        value={value}
        onChange={(event) => {
          const chosen = options.find((option) => option.value === event.target.value);
          if (chosen) onChange(chosen.value);
        }}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  );
};
