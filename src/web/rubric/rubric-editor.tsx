import { useId, useRef } from 'react';
import type { Problem } from '#record/problem';
import styles from './rubric-screen.module.css';

interface RubricEditorProps {
  readonly text: string;
  readonly problems: readonly Problem[];
  readonly onText: (text: string) => void;
}

/** The rubric's text, and beside it what is wrong with it; a press on a fault goes to its place. */
export const RubricEditor = ({ text, problems, onText }: RubricEditorProps) => {
  const name = useId();
  const area = useRef<HTMLTextAreaElement>(null);
  const goTo = ({ line, column }: Problem) => {
    const offset = offsetOf(text, line, column);
    area.current?.focus();
    area.current?.setSelectionRange(offset, offset);
  };
  return (
    <div className={styles.editing}>
      <div className={styles.field}>
        <label htmlFor={name}>Rubric, as YAML</label>
        <textarea
          id={name}
          ref={area}
          className={styles.text}
          value={text}
          spellCheck={false}
          autoComplete="off"
          wrap="off"
          dir="ltr"
          aria-invalid={problems.length > 0 || undefined}
          aria-describedby={`${name}-faults`}
          onChange={({ target }) => onText(target.value)}
        />
      </div>
      <section aria-labelledby="faults">
        <h2 id="faults">Faults</h2>
        <p id={`${name}-faults`} role="status" className={styles.soft}>
          {problems.length === 0
            ? 'None: the table and the shelf below follow the text.'
            : `${problems.length}. Until they are mended, the table and the shelf below show the text before.`}
        </p>
        <ol className={styles.faults}>
          {problems.slice(0, SHOWN).map((problem) => (
            <li key={`${problem.line} ${problem.column} ${problem.path} ${problem.message}`}>
              <button type="button" className={styles.fault} onClick={() => goTo(problem)}>
                line {problem.line}, column {problem.column}
                {problem.path === '' ? '' : `: ${problem.path}`}
              </button>
              <span>
                {problem.message}
                {problem.value === undefined ? '' : ` (${problem.value})`}. {problem.remedy}
              </span>
            </li>
          ))}
        </ol>
        {problems.length > SHOWN && <p className={styles.soft}>And {problems.length - SHOWN} more.</p>}
      </section>
    </div>
  );
};

/** Faults shown at once; the rest follow when these are mended. */
const SHOWN = 20;

/** Offset of a line and column, both from 1 [UTF-16 units]. */
const offsetOf = (text: string, line: number, column: number): number => {
  let start = 0;
  for (let passed = 1; passed < line; passed += 1) {
    const end = text.indexOf('\n', start);
    if (end < 0) break;
    start = end + 1;
  }
  return Math.min(start + column - 1, text.length);
};
