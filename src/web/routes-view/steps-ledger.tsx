import { stretch } from '#quantity/counts';
import { entryWords } from '#report/words/action-words';
import type { LedgerLine, RouteVerdict } from '#verdict/verdict';
import { LedgerTable } from '../look/ledger-table.tsx';
import { timeWords } from './route-words.ts';
import styles from './routes-screen.module.css';

/** What is done on a route, a line a step, with the reason each step ended. */
export const StepsLedger = ({ route, caption }: { readonly route: RouteVerdict; readonly caption: string }) =>
  route.lines.length === 0 ? (
    <p>The route has no step: the part is free on the complete product.</p>
  ) : (
    <div className={styles.steps}>
      <LedgerTable
        caption={caption}
        rows={route.lines}
        rowKey={({ from, does }) => `${from} ${does.join()}`}
        columns={[
          { name: 'step', cell: ({ from, to }: LedgerLine) => stretch(from, to) },
          { name: 'what is done', cell: Done },
          { name: 'with', cell: ({ tools }) => (tools.length === 0 ? 'bare hands' : tools.join(' and ')) },
          { name: 'time, min:s', cell: Time },
          { name: 'why the step ended', cell: Ended },
        ]}
      />
    </div>
  );

const Done = ({ does, fasteners, damage }: LedgerLine) => (
  <>
    {does.join('; ')}
    {fasteners.map(({ id: key, name, kind, count, leaves }) => (
      <span key={key} className={styles.under}>
        {count} × {name} ({kind}): {leaves}
      </span>
    ))}
    {damage !== undefined && (
      <span className={styles.under}>
        <strong>Damage:</strong> {damage}
      </span>
    )}
  </>
);

const Time = (line: LedgerLine) => {
  const { mean, spread } = timeWords(line);
  return (
    <>
      {mean}
      {spread !== undefined && <span className={styles.under}>{spread}</span>}
    </>
  );
};

const Ended = ({ ended, inStretch, evidence }: LedgerLine) => (
  <>
    {ended}
    {inStretch && <span className={styles.under}>counts for fasteners and tools</span>}
    {evidence.length > 0 && <span className={styles.under}>evidence: {entryWords(evidence).join(', ')}</span>}
  </>
);
