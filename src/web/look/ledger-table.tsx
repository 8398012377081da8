import type { ReactNode } from 'react';
import styles from './ledger-table.module.css';

/** One column of a ledger. */
export interface Column<Row> {
  readonly name: string;
  readonly cell: (row: Row) => ReactNode;
  /** Figures stand at the right. */
  readonly figure?: boolean;
  /** Left out on a narrow screen. */
  readonly wideOnly?: boolean;
  /** How the rows stand if this column orders them; missing where it does not just now. */
  readonly sorted?: 'ascending' | 'descending' | undefined;
  /** Called when the head is pressed; columns without it cannot order. */
  readonly onSort?: () => void;
}

/** A table drawn as a ledger: hairlines, no fills, figures in line. The first column names the row. */
export const LedgerTable = <Row,>({
  caption,
  columns,
  rows,
  rowKey,
}: {
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly rowKey: (row: Row) => string;
}) => (
  <table className={styles.ledger}>
    <caption className="sr-only">{caption}</caption>
    <thead>
      <tr>
        {columns.map((column) => (
          <th key={column.name} scope="col" className={cellClass(column)} aria-sort={column.sorted}>
            <Head {...column} />
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {rows.map((row) => (
        <tr key={rowKey(row)}>
          {columns.map((column, index) =>
            index === 0 ? (
              <th key={column.name} scope="row" className={cellClass(column)}>
                {column.cell(row)}
              </th>
            ) : (
              <td key={column.name} className={cellClass(column)}>
                {column.cell(row)}
              </td>
            ),
          )}
        </tr>
      ))}
    </tbody>
  </table>
);

const Head = ({ name, sorted, onSort }: { name: string; sorted?: string | undefined; onSort?: () => void }) =>
  onSort === undefined ? (
    name
  ) : (
    <button type="button" className={styles.sort} onClick={onSort}>
      {name}
      <span aria-hidden="true">{sorted === undefined ? '' : sorted === 'ascending' ? ' ↑' : ' ↓'}</span>
    </button>
  );

const cellClass = ({ figure, wideOnly }: { readonly figure?: boolean; readonly wideOnly?: boolean }) =>
  [figure && styles.figure, wideOnly && styles.wideOnly].filter(Boolean).join(' ');
