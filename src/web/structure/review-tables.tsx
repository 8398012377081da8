import { useState } from 'react';
import { Button } from '../look/button.tsx';
import { type Column, LedgerTable } from '../look/ledger-table.tsx';
import type { FastenerRow } from './fastener-rows.ts';
import type { PartRow } from './part-rows.ts';
import styles from './structure-screen.module.css';

/** Fasteners drawn at once. */
const DRAWN = 30;

interface Choosing {
  readonly chosen: string | undefined;
  readonly onChoose: (subject: string) => void;
}

/** The picture in words, and what each part's question was answered. */
export const PartsTable = ({ rows, chosen, onChoose }: Choosing & { readonly rows: readonly PartRow[] }) => {
  const columns: readonly Column<PartRow>[] = [
    {
      name: 'part',
      cell: ({ part, name }) => <Choice subject={part} name={name} chosen={chosen} onChoose={onChoose} />,
    },
    { name: 'steps', cell: ({ steps }) => steps, figure: true },
    { name: 'reached from', cell: ({ face: side }) => side, wideOnly: true },
    { name: 'first off', cell: ({ after }) => after, wideOnly: true },
    { name: 'by sight, behind', cell: ({ sight }) => <span dir="auto">{sight}</span> },
  ];
  const answered = rows.filter(({ isAnswered }) => isAnswered).length;
  return (
    <section className={styles.table} aria-labelledby="part-by-part">
      <h2 id="part-by-part">Part by part</h2>
      <p className={styles.soft}>
        The picture in words. {answered} of {rows.length} parts have their answer.
      </p>
      <LedgerTable caption="Parts, shallow first" columns={columns} rows={rows} rowKey={({ part }) => part} />
    </section>
  );
};

/** Every fastener with what it holds, and what its question was answered. */
export const FastenersTable = ({ rows, chosen, onChoose }: Choosing & { readonly rows: readonly FastenerRow[] }) => {
  const [drawn, setDrawn] = useState(DRAWN);
  const columns: readonly Column<FastenerRow>[] = [
    {
      name: 'fastener',
      cell: ({ fastener, name }) => <Choice subject={fastener} name={name} chosen={chosen} onChoose={onChoose} />,
    },
    { name: 'kind', cell: ({ kind }) => kind, wideOnly: true },
    { name: 'holds', cell: ({ holds }) => <span dir="auto">{holds}</span>, wideOnly: true },
    { name: 'by sight, behind', cell: ({ sight }) => <span dir="auto">{sight}</span> },
  ];
  const answered = rows.filter(({ isAnswered }) => isAnswered).length;
  return (
    <section className={styles.table} aria-labelledby="fastener-by-fastener">
      <h2 id="fastener-by-fastener">Fastener by fastener</h2>
      <p className={styles.soft}>
        {answered} of {rows.length} fasteners have their answer.
      </p>
      <LedgerTable
        caption="Fasteners"
        columns={columns}
        rows={rows.slice(0, drawn)}
        rowKey={({ fastener }) => fastener}
      />
      {rows.length > drawn && (
        <Button onPress={() => setDrawn(rows.length)}>Show the other {rows.length - drawn}</Button>
      )}
    </section>
  );
};

const Choice = ({
  subject,
  name,
  chosen,
  onChoose,
}: Choosing & { readonly subject: string; readonly name: string }) => (
  <button type="button" className={styles.part} aria-pressed={subject === chosen} onClick={() => onChoose(subject)}>
    <bdi>{name}</bdi>
  </button>
);
