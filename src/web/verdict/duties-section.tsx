import type { DutyFinding, DutyState } from '#schemes/duties/duty-finding';
import { DUTIES_HEADER, DUTY_MARK_WORDS, DUTY_STATE_WORDS } from '#schemes/duties/duty-words';
import { LedgerTable } from '../look/ledger-table.tsx';
import styles from './duties-section.module.css';

/** The legal duties, law by law, as a ledger: what each asks, what was observed, and how sure the row is. */
export const DutiesSection = ({ duties }: { readonly duties: readonly DutyFinding[] }) => {
  const laws = [...new Set(duties.map(({ law }) => law))];
  return (
    <section aria-labelledby="legal-duties">
      <h2 id="legal-duties">Legal duties</h2>
      <p className={styles.soft}>{DUTIES_HEADER} Each row says whether the text of the law was read.</p>
      {laws.map((law) => (
        <Law key={law} law={law} duties={duties.filter((duty) => duty.law === law)} />
      ))}
    </section>
  );
};

interface LawProps {
  readonly law: string;
  readonly duties: readonly DutyFinding[];
}

/** Folded, with its tally: a phone would scroll through sixty rows to whatever stands below. */
const Law = ({ law, duties }: LawProps) => (
  <details className={styles.law}>
    <summary>
      {duties[0]?.jurisdiction}: {law} <span className={styles.tally}>{tally(duties)}</span>
    </summary>
    <LedgerTable
      caption={`Duties of ${law}`}
      rows={duties}
      rowKey={({ id }) => id}
      columns={[
        { name: 'duty', cell: (duty) => <Duty {...duty} /> },
        { name: 'state', cell: ({ state }) => <span className={styles.state}>{DUTY_STATE_WORDS[state]}</span> },
        { name: 'observed', cell: (duty) => <Observed {...duty} /> },
        { name: 'evidence', cell: ({ evidence }) => evidence.join(', '), wideOnly: true },
      ]}
    />
  </details>
);

const STATES: readonly DutyState[] = ['met', 'not-met', 'not-shown', 'does-not-apply'];

const tally = (duties: readonly DutyFinding[]): string =>
  STATES.flatMap((state) => {
    const count = duties.filter((duty) => duty.state === state).length;
    return count === 0 ? [] : [`${DUTY_STATE_WORDS[state]} ${count}`];
  }).join(', ');

const Duty = ({ title, clause, mark }: DutyFinding) => (
  <>
    {title}
    <span className={styles.line}>
      {clause}; {DUTY_MARK_WORDS[mark]}
    </span>
  </>
);

const Observed = ({ observed, asks, missing, notes }: DutyFinding) => (
  <>
    {observed}
    <span className={styles.line}>asks: {asks}</span>
    {missing.map(({ address, what }) => (
      <span key={`${address} ${what}`} className={styles.line}>
        missing: {what} ({address})
      </span>
    ))}
    {notes.map((note) => (
      <span key={note} className={styles.line}>
        {note}
      </span>
    ))}
  </>
);
