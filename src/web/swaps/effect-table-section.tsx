import { EFFECT_WORDS } from '#swaps/diagnosis/effect-words';
import type { EffectCell, EffectTable } from '#swaps/lineage/effect-table';
import { cellHead, cellLines, codesIn } from '#swaps/lineage/lineage-words';
import { LedgerTable } from '../look/ledger-table.tsx';
import styles from './swaps-screen.module.css';

interface EffectTableProps {
  readonly table: EffectTable;
  readonly nameOf: (part: string) => string;
}

/** The effects by part and firmware, as a ledger: the code, in how many runs and hosts, and what was put apart. */
export const EffectTableSection = ({ table, nameOf }: EffectTableProps) => {
  const shown = codesIn(table);
  return (
    <section aria-labelledby="effects-by-firmware">
      <h3 id="effects-by-firmware">Effects of foreign parts, by part and firmware</h3>
      <div className={styles.scroll}>
        <LedgerTable
          caption="Effects of foreign parts by part and firmware, with the runs counted"
          rows={table.rows}
          rowKey={({ part }) => part}
          columns={[
            {
              name: 'part',
              cell: ({ part }) => (
                <a href={`#finding-${part}`} className={styles.toPart} dir="auto">
                  {nameOf(part)}
                </a>
              ),
            },
            ...table.firmware.map((version, index) => ({
              name: version === undefined ? 'firmware not recorded' : `firmware ${version}`,
              cell: ({ cells }: EffectTable['rows'][number]) => <Cell cell={cells[index]} />,
            })),
          ]}
        />
      </div>
      {shown.length > 0 && (
        <dl className={styles.scale}>
          {shown.map((code) => (
            <div key={code}>
              <dt>{code}</dt>
              <dd>a foreign piece {EFFECT_WORDS[code]}</dd>
            </div>
          ))}
        </dl>
      )}
    </section>
  );
};

const Cell = ({ cell }: { readonly cell: EffectCell | undefined }) => {
  if (!cell) return null;
  return (
    <>
      <span className={styles.code}>{cellHead(cell)}</span>
      {cellLines(cell).map((line) => (
        <span key={line} className={styles.line}>
          {line}
        </span>
      ))}
    </>
  );
};
