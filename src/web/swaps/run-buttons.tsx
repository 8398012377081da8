import { createContext, useContext, useState } from 'react';
import styles from './swaps-screen.module.css';

/** Which number has the run of a fit, and of which part is it? */
export const RunNames = createContext<(id: string) => string>((id) => id);

interface RunButtonsProps {
  readonly ids: readonly string[];
  readonly onRun: (id: string) => void;
  /** So many are shown at first; the rest on demand. */
  readonly most?: number;
}

/** Runs named where they count, each to be opened. */
export const RunButtons = ({ ids, onRun, most = 40 }: RunButtonsProps) => {
  const [isAll, setAll] = useState(false);
  const nameOf = useContext(RunNames);
  const shown = isAll || ids.length <= most + 1 ? ids : ids.slice(0, most);
  return (
    <span className={styles.runs}>
      {shown.map((id) => (
        <button key={id} type="button" className={styles.run} title={id} onClick={() => onRun(id)}>
          {nameOf(id)}
        </button>
      ))}
      {shown.length < ids.length && (
        <button type="button" className={styles.run} onClick={() => setAll(true)}>
          and {ids.length - shown.length} more
        </button>
      )}
    </span>
  );
};
