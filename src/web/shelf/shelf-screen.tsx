import { Link, useLoaderData } from '@tanstack/react-router';
import { useState } from 'react';
import type { ShelfItem } from '../ledger/ledger-client.ts';
import linkStyles from '../look/button.module.css';
import { type Column, LedgerTable } from '../look/ledger-table.tsx';
import { StatePage } from '../look/state-page.tsx';
import { TextField } from '../look/text-field.tsx';
import { HouseScoreCell } from '../rubric/house-score-cell.tsx';
import { type HouseScores, useHouseScores } from '../rubric/use-house-scores.ts';
import { categoryWords } from './category-words.ts';
import { type ShelfOrder, type ShelfView, shelfRows } from './shelf-rows.ts';
import styles from './shelf-screen.module.css';

/** All assessments: search, order, state, and the way to a new one. */
export const ShelfScreen = () => {
  const { items } = useLoaderData({ from: '/' });
  const [view, setView] = useState<ShelfView>({ search: '', order: 'changed', descending: true });
  const rows = shelfRows(items, view);
  const house = useHouseScores(items);
  return (
    <>
      <title>Shelf · Unfasten</title>
      <div className={styles.head}>
        <h1>Shelf</h1>
        <div className={styles.tools} data-screen-only>
          {items.length > 0 && (
            <TextField
              label="Search"
              type="search"
              value={view.search}
              onChange={(search) => setView({ ...view, search })}
              most={200}
            />
          )}
          <Link to="/new" className={`${linkStyles.button} ${linkStyles.main} ${styles.link}`}>
            New assessment
          </Link>
        </div>
      </div>
      {items.length === 0 ? (
        <EmptyShelf />
      ) : rows.length === 0 ? (
        <StatePage title="Nothing here is called that">
          <p>On the shelf: {items.length}. Take a word away to see more.</p>
        </StatePage>
      ) : (
        <LedgerTable
          caption="Assessments"
          columns={[...columns(view, setView), houseColumn(house)]}
          rows={rows}
          rowKey={keyOf}
        />
      )}
    </>
  );
};

const EmptyShelf = () => (
  <StatePage title="The shelf is empty">
    <p>Begin an assessment here, or bring a folder in with unfasten ledger import while the application is closed.</p>
  </StatePage>
);

const keyOf = ({ assessment }: ShelfItem) => assessment;

const columns = (view: ShelfView, setView: (view: ShelfView) => void): readonly Column<ShelfItem>[] => {
  const sortable = (order: ShelfOrder) => ({
    sorted: view.order !== order ? undefined : view.descending ? ('descending' as const) : ('ascending' as const),
    onSort: () =>
      setView({ ...view, order, descending: view.order === order ? !view.descending : order === 'changed' }),
  });
  return [
    { name: 'product', cell: (item) => <ProductCell item={item} />, ...sortable('product') },
    { name: 'kind', cell: ({ category }) => categoryWords(category), wideOnly: true, ...sortable('category') },
    {
      name: 'state',
      cell: ({ state }) => <span className={styles.word}>{STATE_WORDS[state]}</span>,
      ...sortable('state'),
    },
    { name: 'revision', cell: ({ revision }) => revision, figure: true, wideOnly: true },
    { name: 'last change', cell: ({ changed }) => dayAndTime(changed), figure: true, ...sortable('changed') },
  ];
};

const houseColumn = (house: HouseScores): Column<ShelfItem> => ({
  name: 'house score, of 100',
  cell: ({ assessment }) => <HouseScoreCell house={house} assessment={assessment} />,
  figure: true,
  wideOnly: true,
});

const ProductCell = ({ item }: { readonly item: ShelfItem }) => (
  <>
    <Link to="/a/$assessment" params={{ assessment: item.assessment }} className={styles.product} dir="auto">
      {item.product || item.assessment}
    </Link>
    <span className={styles.title} dir="auto">
      {[item.title, item.invented ? 'invented' : undefined].filter(Boolean).join(' · ')}
    </span>
  </>
);

const STATE_WORDS: Readonly<Record<ShelfItem['state'], string>> = { prepared: 'prepared', logged: 'log begun' };

/** ISO day and minute at this place: it orders by eye and is misread nowhere. */
const dayAndTime = (moment: string): string => {
  const date = new Date(moment);
  const local = new Date(date.getTime() - date.getTimezoneOffset() * 60_000).toISOString();
  return `${local.slice(0, 10)} ${local.slice(11, 16)}`;
};
