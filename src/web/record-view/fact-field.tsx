import { useId, useState } from 'react';

/** A field of the record that is written where it stands. */
export interface FactFieldProps {
  readonly name: string;
  readonly value: string;
  readonly onCommit: (text: string) => void;
  /** A name must not be taken away. */
  readonly required?: boolean;
}

/** One line of the record: written by typing, taken with Enter or on leaving, left as it was with Escape. */
export const FactField = ({ name, value, onCommit, required = false }: FactFieldProps) => {
  const field = useId();
  const [draft, setDraft] = useState<string>();
  const commit = () => {
    if (draft !== undefined && !(required && draft.trim() === '')) onCommit(draft);
    setDraft(undefined);
  };
  return (
    <div>
      <label htmlFor={field}>{name}</label>
      <input
        id={field}
        dir="auto"
        autoComplete="off"
        maxLength={10_000}
        placeholder="not known"
        value={draft ?? value}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.nativeEvent.isComposing) return;
          if (event.key === 'Enter') commit();
          if (event.key === 'Escape') setDraft(undefined);
        }}
      />
    </div>
  );
};
