import { createContext, useContext } from 'react';
import { type FigureOf, figureReading } from '#report/sections/figure-reading';
import { explainedPath } from '#report/walk/figure-links';
import { basisWords, NO_PARTS, roleWords, scoreWords } from '#report/words/terms';
import { PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';
import type { BasisVerdict } from '#verdict/verdict';
import { LedgerTable } from '../look/ledger-table.tsx';
import { type FigurePlace, stepsPath } from './figure-place.ts';
import styles from './verdict-screen.module.css';

/** What a figure does when it is pressed: the screen walks it back. */
export const WalkBack = createContext<(place: FigurePlace) => void>(() => undefined);

interface FiguresRow {
  readonly name: string;
  readonly figure: FigureOf;
}

const scores = Object.keys(scoreWords) as (keyof typeof scoreWords)[];
const INDEX_ROWS: readonly FiguresRow[] = [
  { name: 'Index R', figure: { path: ['R'], read: ({ R }) => R } },
  { name: 'Class, from R unrounded', figure: { path: [], read: ({ classUnrounded }) => classUnrounded } },
  { name: 'Class, from R rounded', figure: { path: [], read: ({ classRounded }) => classRounded } },
  ...scores.map((score) => ({
    name: `${scoreWords[score]} (${score})`,
    figure: { path: [score], read: ({ scores: all }: BasisVerdict['figures']) => all[score] },
  })),
];

/** The index and its six scores, basis beside basis. */
export const IndexLedger = ({ bases }: { readonly bases: readonly BasisVerdict[] }) => (
  <LedgerTable
    caption="Index and scores on each basis"
    rows={INDEX_ROWS}
    rowKey={({ name }) => name}
    columns={[
      { name: 'figure', cell: ({ name }: FiguresRow) => name },
      ...bases.map((basis) => ({
        name: basisWords[basis.basis],
        figure: true,
        cell: ({ name, figure }: FiguresRow) => <Figure basis={basis} name={name} figure={figure} />,
      })),
    ]}
  />
);

const POINTS = [
  { column: 'steps', score: 'SDD', words: 'steps' },
  { column: 'DD', score: 'SDD', words: 'depth' },
  { column: 'F', score: 'SF', words: 'fasteners' },
  { column: 'T', score: 'ST', words: 'tools' },
] as const;

/** The priority parts, basis beside basis; said in words where nothing is known but the scores of a public sheet. */
export const PartsLedgers = ({ bases }: { readonly bases: readonly BasisVerdict[] }) => {
  const withParts = bases.filter(({ figures }) => Object.keys(figures.parts).length > 0);
  if (withParts.length === 0) return <p className={styles.soft}>{NO_PARTS}</p>;
  return (
    <div className={styles.side}>
      {withParts.map((basis) => (
        <PartsLedger key={basis.basis} basis={basis} />
      ))}
    </div>
  );
};

/** The priority parts on one basis: steps, and the points for depth, fasteners and tools. */
const PartsLedger = ({ basis }: { readonly basis: BasisVerdict }) => {
  const roles = PRIORITY_ROLES.filter((role) => basis.figures.parts[role] !== undefined);
  return (
    <LedgerTable
      caption={`Priority parts, ${basisWords[basis.basis]}`}
      rows={roles}
      rowKey={(role) => role}
      columns={[
        { name: basisWords[basis.basis], cell: (role) => roleWords[role] },
        ...POINTS.map(({ column, score, words }) => ({
          name: words,
          figure: true,
          cell: (role: (typeof roles)[number]) => (
            <Figure
              basis={basis}
              name={`${roleWords[role]}, ${words}`}
              figure={{
                path: [score, role],
                isCount: column === 'steps',
                read: ({ parts }) => parts[role]?.[column],
              }}
            />
          ),
        })),
      ]}
    />
  );
};

/** One figure: pressed, it is walked back to its clause and its evidence. */
const Figure = ({ basis, name, figure }: { basis: BasisVerdict; name: string; figure: FigureOf }) => {
  const walk = useContext(WalkBack);
  const { shown, ends } = figureReading(basis, figure);
  const path = (figure.isCount ? stepsPath : explainedPath)(basis.tree, figure.path);
  return (
    <>
      {path === undefined ? (
        shown
      ) : (
        <button
          type="button"
          className={styles.figure}
          aria-label={`${shown}: ${name}, ${basisWords[basis.basis]}; why?`}
          onClick={() => walk({ basis: basis.basis, path, name })}
        >
          {shown}
        </button>
      )}
      {ends !== undefined && <span className={styles.ends}>{ends}</span>}
    </>
  );
};
