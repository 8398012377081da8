import { useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import styles from './run-sheet.module.css';
import { useSwaps } from './use-swaps.ts';

/** The whole plan in a fold: how long it takes, what it cannot decide, what one more specimen would buy, what it takes for granted. */
export const PlanFold = ({ document }: { readonly document: Assessment }) => {
  const [isOpen, setOpen] = useState(false);
  return (
    <details className={styles.plan} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What the plan cannot decide, and what one more specimen would buy</summary>
      {isOpen && <Plan document={document} />}
    </details>
  );
};

const Plan = ({ document }: { readonly document: Assessment }) => {
  const { plan, planOf, problem, busy } = useSwaps(document, { wants: 'plan' });
  const isStale = planOf !== document;
  return (
    <div className={styles.inside} aria-busy={busy}>
      <div role="status">
        {busy && <p className={styles.hint}>{plan ? 'Being worked out anew …' : 'Being worked out …'}</p>}
        {!busy && isStale && problem !== undefined && <p className={styles.fault}>There is no plan: {problem}</p>}
      </div>
      {plan && (
        <>
          <p>{plan.length}</p>
          <Lines
            title="Not decided by any run at this bench"
            lines={plan.undecided}
            none="Nothing: every part can be decided, whatever the truth."
          />
          <Lines title="With one more specimen" lines={plan.oneMore} none="It would decide nothing more." />
          <Lines title="Taken, and not on record" lines={plan.assumptions} none="Nothing." />
        </>
      )}
    </div>
  );
};

interface LinesProps {
  readonly title: string;
  readonly lines: readonly string[];
  readonly none: string;
}

const Lines = ({ title, lines, none }: LinesProps) => (
  <section>
    <h3>{title}</h3>
    {lines.length === 0 ? (
      <p>{none}</p>
    ) : (
      <ul className={styles.plain}>
        {lines.map((line) => (
          <li key={line} dir="auto">
            {line}
          </li>
        ))}
      </ul>
    )}
  </section>
);
