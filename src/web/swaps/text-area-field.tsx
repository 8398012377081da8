import { useId } from 'react';
import styles from './run-sheet.module.css';

interface TextAreaProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly fault?: string | undefined;
}

/**
 * A text of several lines. What is pasted is text, whatever it was, and none of it is cut: what the record cannot take is said
 * beside it. Its direction follows its first strong letter.
 */
export const TextAreaField = ({ label, value, onChange, fault }: TextAreaProps) => {
  const name = useId();
  return (
    <div className={styles.area}>
      <label htmlFor={name}>{label}</label>
      <textarea
        id={name}
        dir="auto"
        rows={Math.min(8, Math.max(2, value.split('\n').length))}
        value={value}
        aria-invalid={fault === undefined ? undefined : true}
        aria-describedby={fault === undefined ? undefined : `${name}-fault`}
        onChange={(event) => onChange(event.target.value)}
      />
      {fault !== undefined && (
        <p id={`${name}-fault`} className={styles.fault}>
          {fault}
        </p>
      )}
    </div>
  );
};
