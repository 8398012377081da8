import { boundReasonWords, endKindWords, objectiveWords } from '#report/words/outlook-words';
import { basisWords } from '#report/words/terms';
import type { BasisOutlook, Outlook, OutlookEnd, OutlookFigure } from '#verdict/outlook/outlook';
import { LedgerTable } from '../look/ledger-table.tsx';
import styles from './verdict-screen.module.css';

/** One end of one figure on one basis, to be explained by the answers that lead to it. */
export interface EndPlace {
  readonly basis: BasisOutlook['basis'];
  readonly figure: OutlookFigure['figure'];
  readonly which: 'low' | 'high';
}

interface EndsProps {
  readonly outlook: Outlook;
  readonly onPress: (place: EndPlace) => void;
}

/** Between which ends each figure can still move, and whether each end is proved: a ledger a basis. */
export const EndsLedgers = ({ outlook, onPress }: EndsProps) => (
  <div className={styles.side}>
    {outlook.bases.map((basis) => (
      <div key={basis.basis}>
        <LedgerTable
          caption={`Ends of each figure, ${basisWords[basis.basis]}`}
          rows={basis.figures}
          rowKey={({ figure }) => figure}
          columns={[
            { name: basisWords[basis.basis], cell: ({ figure }) => objectiveWords(figure) },
            ...(['low', 'high'] as const).map((which) => ({
              name: which === 'low' ? 'lowest' : 'highest',
              figure: true,
              cell: (row: OutlookFigure) => (
                <End end={row[which]} place={{ basis: basis.basis, figure: row.figure, which }} onPress={onPress} />
              ),
            })),
          ]}
        />
        <p className={styles.soft}>{boundReasonWords(basis)}</p>
      </div>
    ))}
  </div>
);

interface EndProps {
  readonly end: OutlookEnd | undefined;
  readonly place: EndPlace;
  readonly onPress: EndsProps['onPress'];
}

const endWords = ({ exact, gap, witness }: OutlookEnd): string => {
  if (exact) return 'exact';
  return ['bound', ...(gap ? [`gap ${gap}`] : []), ...(witness?.factsOpen ? ['facts open'] : [])].join(', ');
};

const End = ({ end, place, onPress }: EndProps) => {
  if (!end) return <span className={styles.ends}>no number possible</span>;
  const name = `${objectiveWords(place.figure)}, ${place.which === 'low' ? 'lowest' : 'highest'}, ${basisWords[place.basis]}`;
  return (
    <>
      <button
        type="button"
        className={styles.figure}
        aria-label={`${end.bound}: ${name}, ${endKindWords(end)}; by which answers?`}
        onClick={() => onPress(place)}
      >
        {end.bound}
      </button>
      <span className={styles.ends}>{endWords(end)}</span>
    </>
  );
};
