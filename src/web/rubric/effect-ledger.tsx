import type { ShelfItem } from '../ledger/ledger-client.ts';
import { type Column, LedgerTable } from '../look/ledger-table.tsx';
import { nameOf } from './name-of.ts';
import styles from './rubric-screen.module.css';
import { seenWords } from './score-words.ts';
import type { ScoresView } from './scores-client.ts';

interface EffectLedgerProps {
  readonly items: readonly ShelfItem[];
  readonly view: ScoresView;
  /** Can the kept edition be used by this program? Then its scores come first. */
  readonly hasKept: boolean;
  /** Is the text another than the kept edition? Then both scores stand side by side. */
  readonly isEdited: boolean;
}

/** What the rubric makes of every assessment on the shelf, as kept and as edited, each with its width. */
export const EffectLedger = ({ items, view, hasKept, isEdited }: EffectLedgerProps) => {
  const busy = items.filter(({ assessment }) => view.get(assessment)?.busy !== false).length;
  return (
    <>
      <p role="status" className={styles.soft}>
        {busy === 0
          ? 'Of 100, with the width that open facts leave.'
          : `Being worked out: ${busy} of ${items.length} …`}
      </p>
      <LedgerTable<ShelfItem>
        caption="Effect on the shelf"
        rows={items}
        rowKey={({ assessment }) => assessment}
        columns={[
          { name: 'product', cell: (item) => <span dir="auto">{nameOf(item)}</span> },
          ...(hasKept ? [scoreColumn('as kept', 0, view)] : []),
          ...(isEdited ? [scoreColumn('as edited', hasKept ? 1 : 0, view)] : []),
        ]}
      />
    </>
  );
};

const scoreColumn = (name: string, index: number, view: ScoresView): Column<ShelfItem> => ({
  name,
  cell: ({ assessment }) => <Seen view={view} assessment={assessment} index={index} />,
  figure: true,
});

const Seen = ({ view, assessment, index }: { view: ScoresView; assessment: string; index: number }) => {
  const seen = view.get(assessment);
  return (
    <span className={seen?.busy === false ? undefined : styles.soft}>
      {seenWords(seen, index)}
      {seen?.problem === undefined ? null : <span className={styles.under}>{seen.problem}</span>}
    </span>
  );
};
