import { metricKinds, metricLabel } from '#verdict/rubric/metric-kinds';
import type { Cap, Criterion, Rubric } from '#verdict/rubric/rubric-schema';
import { type Column, LedgerTable } from '../look/ledger-table.tsx';
import { NumberCell } from './number-cell.tsx';
import type { BareScore } from './rubric-messages.ts';
import styles from './rubric-screen.module.css';
import { addsWords, pointsWords } from './score-words.ts';

interface CriteriaLedgerProps {
  readonly rubric: Rubric;
  /** The score of the assessment that is looked at, where it is there. */
  readonly score: BareScore | undefined;
  /** True while the text has faults: then the table shows the text before, and nothing can be changed in it. */
  readonly disabled: boolean;
  readonly onWrite: (path: readonly string[], value: string) => void;
}

type CriterionRow = readonly [key: string, criterion: Criterion];
type CapRow = readonly [key: string, cap: Cap];

/** Criteria and caps as ledgers: weights and heights can be changed where they stand, and the text follows. */
export const CriteriaLedger = ({ rubric, score, disabled, onWrite }: CriteriaLedgerProps) => (
  <>
    <div className={styles.scroll}>
      <LedgerTable<CriterionRow>
        caption="Criteria"
        rows={Object.entries(rubric.criteria)}
        rowKey={([key]) => key}
        columns={criterionColumns({ score, disabled, onWrite })}
      />
    </div>
    {rubric.caps !== undefined && (
      <>
        <h3>Caps</h3>
        <div className={styles.scroll}>
          <LedgerTable<CapRow>
            caption="Caps"
            rows={Object.entries(rubric.caps)}
            rowKey={([key]) => key}
            columns={capColumns({ score, disabled, onWrite })}
          />
        </div>
      </>
    )}
  </>
);

type Editing = Pick<CriteriaLedgerProps, 'score' | 'disabled' | 'onWrite'>;

const criterionColumns = ({ score, disabled, onWrite }: Editing): readonly Column<CriterionRow>[] => {
  const scored = (key: string) => score?.criteria.find((criterion) => criterion.id === key);
  return [
    {
      name: 'criterion',
      cell: ([, { title, metric }]) => (
        <>
          <span dir="auto">{title}</span>
          <span className={styles.under}>{metricLabel(metric)}</span>
        </>
      ),
    },
    {
      name: 'weight',
      cell: ([key, { title, weight }]) => (
        <NumberCell
          label={`Weight of ${title}`}
          value={String(weight)}
          isRight={isWeight}
          disabled={disabled}
          onWrite={(value) => onWrite(['criteria', key, 'weight'], value)}
        />
      ),
    },
    {
      name: 'value',
      cell: ([key]) => wordsOf(scored(key), ({ applies, valueText }) => (applies === 'no' ? '' : valueText)),
      wideOnly: true,
    },
    { name: 'points', cell: ([key]) => wordsOf(scored(key), pointsWords), figure: true, wideOnly: true },
    { name: 'adds', cell: ([key]) => wordsOf(scored(key), addsWords), figure: true },
  ];
};

const wordsOf = <T,>(value: T | undefined, words: (value: T) => string): string =>
  value === undefined ? '' : words(value);

const HOLDS = { yes: 'holds', no: 'does not hold', open: 'open' } as const;

const capColumns = ({ score, disabled, onWrite }: Editing): readonly Column<CapRow>[] => {
  const scored = (key: string) => score?.caps.find((cap) => cap.id === key);
  return [
    {
      name: 'cap',
      cell: ([, { title, when }]) => (
        <>
          <span dir="auto">{title}</span>
          <span className={styles.under}>
            {metricLabel(when.metric)} {conditionWords(when)}
          </span>
        </>
      ),
    },
    {
      name: 'at most',
      cell: ([key, { title, atMost }]) => (
        <NumberCell
          label={`At most, where ${title}`}
          value={String(atMost)}
          isRight={isPoints}
          disabled={disabled}
          onWrite={(value) => onWrite(['caps', key, 'atMost'], value)}
        />
      ),
    },
    {
      name: 'here',
      cell: ([key]) =>
        wordsOf(scored(key), ({ holds, applies }) => (applies === 'no' ? 'does not apply' : HOLDS[holds])),
    },
  ];
};

const conditionWords = ({ metric, above, below, is }: Cap['when']): string => {
  if (above !== undefined) return `above ${above}`;
  if (below !== undefined) return `below ${below}`;
  return `is ${(is ?? []).map((word) => (word === 'none' ? (metricKinds[metric.of].none ?? word) : word)).join(' or ')}`;
};

/** A weight is above 0: a decimal or a fraction. */
const isWeight = (text: string): boolean =>
  /^\s*\d{1,6}(\.\d{1,6})?(\/[1-9]\d{0,5})?\s*$/.test(text) && Number.parseFloat(text) > 0;

const isPoints = (text: string): boolean => /^\s*\d{1,3}(\.\d{1,3})?\s*$/.test(text) && Number(text) <= 100;
