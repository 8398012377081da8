import { useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import type { BenchPlan } from './plan-of-bench.ts';
import styles from './run-sheet.module.css';
import { useSwaps } from './use-swaps.ts';

/** The whole plan in a fold: the runs ahead, how long they take, what they cannot decide, what one more specimen would buy, what is taken for granted. */
export const PlanFold = ({ document }: { readonly document: Assessment }) => {
  const [isOpen, setOpen] = useState(false);
  return (
    <details className={styles.plan} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>The runs ahead, and what they cannot decide</summary>
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
          <RunsAhead runs={plan.runs} />
          {plan.length !== undefined && <p>{plan.length}</p>}
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

const RunsAhead = ({ runs }: { readonly runs: BenchPlan['runs'] }) =>
  runs.length > 0 && (
    <section>
      <h3>If each run shows what is likeliest</h3>
      <ol className={styles.ahead}>
        {runs.map(({ head, fits, untilMinutes, released }) => (
          <li key={untilMinutes}>
            <p>
              <strong dir="auto">{head}</strong>, until minute {Math.round(untilMinutes)}
            </p>
            <ul className={styles.plain}>
              {fits.map((fit) => (
                <li key={fit} dir="auto">
                  {fit}
                </li>
              ))}
            </ul>
            {released.length > 0 && <p dir="auto">Then {released.join(' and ')} may be used up.</p>}
          </li>
        ))}
      </ol>
    </section>
  );

interface LinesProps {
  readonly title: string;
  /** Missing is not worked out yet. */
  readonly lines: readonly string[] | undefined;
  readonly none: string;
}

const Lines = ({ title, lines, none }: LinesProps) => (
  <section>
    <h3>{title}</h3>
    {lines === undefined ? (
      <p className={styles.hint}>Being worked out …</p>
    ) : lines.length === 0 ? (
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
