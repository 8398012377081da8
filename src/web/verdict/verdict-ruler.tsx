import { useId } from 'react';
import { type RuleEnds, ruleEndWords } from '#report/rule/rule-ends';
import { type RuleGeometry, type RuleRow, ruleGeometry } from '#report/rule/rule-geometry';
import { letterWords } from '#report/sections/verdict-words';
import { basisWords } from '#report/words/terms';
import type { BasisVerdict } from '#verdict/verdict';
import styles from './verdict-ruler.module.css';

/** The widths it is drawn for [px]; the style shows the one that fits. */
const WIDTHS = [
  { width: 1160, shown: styles.wide },
  { width: 690, shown: styles.middle },
  { width: 352, shown: styles.narrow },
];

interface RulerProps {
  readonly bases: readonly BasisVerdict[];
  readonly ends: readonly RuleEnds[];
}

/**
 * The ruler over R with the thresholds of the law: a mark at each figure, hatched over anything still possible, solid
 * inside it what holds on the expectation; ends marked by how far they are proved.
 */
export const VerdictRuler = ({ bases, ends }: RulerProps) => {
  const key = useId();
  const said = bases.map((basis) => {
    const own = ends.find((candidate) => candidate.basis === basis.basis);
    const words = [basis.figures.R ?? 'no figure', letterWords(basis), ...ruleEndWords(own)];
    return `${basisWords[basis.basis]}: ${words.join(', ')}`;
  });
  return (
    <div className={styles.rulers} role="img" aria-label={`Ruler of R from 1 to 5. ${said.join('. ')}.`}>
      {WIDTHS.map(({ width, shown }) => (
        <Ruler key={width} geometry={ruleGeometry(bases, width, ends)} hatch={`${key}-${width}`} shown={shown} />
      ))}
    </div>
  );
};

const Ruler = ({ geometry, hatch, shown }: { geometry: RuleGeometry; hatch: string; shown: string | undefined }) => {
  const { width, height, axisAt, from, to, thresholds, classes, ticks, rows } = geometry;
  return (
    <svg className={shown} viewBox={`0 0 ${width} ${height}`} width={width} height={height} aria-hidden="true">
      <defs>
        <pattern id={hatch} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line className={styles.hatch} x1="0" y1="0" x2="0" y2="6" />
        </pattern>
      </defs>
      {thresholds.map(({ x, words }) => (
        <g key={words}>
          <line className={styles.threshold} x1={x} x2={x} y1="24" y2={height - 4} />
          <text className={styles.soft} x={x} y="16">
            {words}
          </text>
        </g>
      ))}
      {classes.map(({ x, words }) => (
        <text key={words} className={styles.soft} x={x} y="42">
          {words}
        </text>
      ))}
      <line className={styles.axis} x1={from} x2={to} y1={axisAt} y2={axisAt} />
      {ticks.map(({ x, length }) => (
        <line key={x} className={styles.tick} x1={x} x2={x} y1={axisAt} y2={axisAt + length} />
      ))}
      {rows.map((row) => (
        <Row key={row.basis} row={row} geometry={geometry} hatch={hatch} />
      ))}
    </svg>
  );
};

const Row = ({ row, geometry, hatch }: { row: RuleRow; geometry: RuleGeometry; hatch: string }) => {
  const { middle, open, own, expected, ends } = row;
  return (
    <g>
      <line className={styles.lane} x1={geometry.from} x2={geometry.to} y1={middle} y2={middle} />
      {open && (
        <rect
          className={styles.open}
          fill={`url(#${hatch})`}
          x={open.from}
          y={middle - 8}
          width={open.to - open.from}
          height="16"
        />
      )}
      {expected && (
        <rect
          className={styles.expected}
          x={expected.from - 1.5}
          y={middle - 4}
          width={Math.max(3, expected.to - expected.from + 3)}
          height="8"
        />
      )}
      {ends.map((end) => (
        <End key={end.x} end={end} middle={middle} />
      ))}
      {own !== undefined && <rect className={styles.mark} x={own - 2.5} y={middle - 10} width="5" height="20" />}
      <text className={styles.label} x={row.wordsX} y={row.wordsY}>
        {row.words}
      </text>
    </g>
  );
};

const End = ({ end, middle }: { readonly end: RuleRow['ends'][number]; readonly middle: number }) => (
  <>
    {end.kind !== undefined && (
      <line className={styles[end.kind]} x1={end.x} x2={end.x} y1={middle - 10} y2={middle + 10} />
    )}
    {end.byReading && <circle className={styles.ring} cx={end.x} cy={middle + 14} r="3" />}
  </>
);
