import { useParams } from '@tanstack/react-router';
import { useState } from 'react';
import { clockText } from '#report/words/durations';
import { routeTimeWords } from '#report/words/terms';
import { PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';
import type { PartVerdict, Verdict } from '#verdict/verdict';
import { useVerdict } from '../engine/use-verdict.ts';
import { useAssessment } from '../ledger/use-assessment.ts';
import { LedgerTable } from '../look/ledger-table.tsx';
import { Notice } from '../look/notice.tsx';
import { SelectField } from '../look/select-field.tsx';
import { StatePage } from '../look/state-page.tsx';
import { PartRoute } from './part-route.tsx';
import { depthWords } from './route-words.ts';
import styles from './routes-screen.module.css';
import { ToolsPanel } from './tools-panel.tsx';

/** How every part is reached: all parts in a ledger, one of them step by step, the shared burden, some tools only. */
export const RoutesScreen = () => {
  const { assessment } = useParams({ from: '/a/$assessment' });
  const { snapshot } = useAssessment(assessment);
  const { document, revision } = snapshot;
  const engine = useVerdict(document, revision);
  const { verdict, problem, busy } = engine;
  if (!verdict && busy) return <StatePage title="Being worked out …" busy />;
  return (
    <div className={styles.sheet} aria-busy={busy}>
      {problem !== undefined && (
        <Notice needs>
          <p>
            <strong>No routes of the record as it is.</strong> {problem}
          </p>
        </Notice>
      )}
      {verdict && (
        <>
          <p className={styles.soft} role="status">
            Routes of revision {engine.revision}
            {busy ? '; the newer ones are being worked out.' : '.'}
          </p>
          <Routes verdict={verdict} />
          <Burden burden={verdict.burden} />
        </>
      )}
      <ToolsPanel document={document} revision={revision} />
    </div>
  );
};

const Routes = ({ verdict }: { readonly verdict: Verdict }) => {
  const { parts } = verdict;
  const weighed = PRIORITY_ROLES.flatMap((role) => parts.filter(({ priority }) => priority === role));
  const others = parts.filter(({ priority }) => priority === undefined);
  const ordered = [...weighed, ...others];
  const [picked, setPicked] = useState<string>();
  const part = parts.find((candidate) => candidate.part === picked) ?? ordered[0];
  const names = namesOf(verdict);
  if (!part)
    return (
      <StatePage title="No part is on record yet">
        <p>Routes follow from what is logged at the bench.</p>
      </StatePage>
    );
  const list = (rows: readonly PartVerdict[], caption: string) => (
    <PartsList rows={rows} caption={caption} picked={part.part} onPick={setPicked} />
  );
  return (
    <div className={styles.beside}>
      <section className={styles.overview} aria-labelledby="parts">
        <h2 id="parts">Parts</h2>
        {weighed.length > 0 && list(weighed, 'Priority parts and how deep they lie')}
        {others.length > 0 && (
          <details className={styles.further} open={weighed.length === 0}>
            <summary>{weighed.length === 0 ? 'All parts' : `${others.length} parts the index does not weigh`}</summary>
            {list(others, 'Further parts and how deep they lie')}
          </details>
        )}
      </section>
      <div>
        <div className={styles.choice}>
          <SelectField
            label="part"
            value={part.part}
            options={ordered.map((row) => ({ value: row.part, label: `${row.name}: ${depthWords(row)}` }))}
            onChange={setPicked}
          />
        </div>
        <PartRoute key={part.part} part={part} nameOf={(key) => names.get(key) ?? key.replaceAll('-', ' ')} />
      </div>
    </div>
  );
};

interface PartsListProps {
  readonly rows: readonly PartVerdict[];
  readonly caption: string;
  readonly picked: string;
  readonly onPick: (part: string) => void;
}

const PartsList = ({ rows, caption, picked, onPick }: PartsListProps) => (
  <LedgerTable
    caption={caption}
    rows={rows}
    rowKey={({ part }) => part}
    columns={[
      {
        name: 'part',
        cell: ({ part, name }: PartVerdict) => (
          <button
            type="button"
            className={styles.pick}
            aria-current={part === picked ? 'true' : undefined}
            onClick={() => onPick(part)}
          >
            {name}
          </button>
        ),
      },
      { name: 'steps', figure: true, cell: depthWords },
      {
        name: 'time',
        figure: true,
        cell: ({ best }: PartVerdict) => (best === undefined ? '' : routeTimeWords(best)),
      },
    ]}
  />
);

/** Names for the ids in a route: parts, and the fasteners that stand in some ledger. */
const namesOf = ({ parts, burden }: Verdict): ReadonlyMap<string, string> => {
  const lines = parts.flatMap(({ best, observed, declared }) =>
    [best, observed, declared].flatMap((route) => route?.lines ?? []),
  );
  return new Map([
    ...burden.map(({ fastener, name }) => [fastener, name] as const),
    ...lines.flatMap(({ fasteners }) => fasteners.map(({ id: key, name }) => [key, name] as const)),
    ...parts.map(({ part, name }) => [part, name] as const),
  ]);
};

const Burden = ({ burden }: { readonly burden: Verdict['burden'] }) => {
  const heavy = burden.filter(({ steps }) => steps > 0);
  const light = burden.filter(({ steps }) => steps === 0);
  return (
    <section aria-labelledby="shared-burden">
      <h2 id="shared-burden">Shared burden</h2>
      {burden.length === 0 ? (
        <p>No fastener is known to weigh on several routes.</p>
      ) : (
        <>
          <p className={styles.soft}>
            What the best routes to all priority parts together would save were this one fastener already released.
          </p>
          <BurdenTable rows={heavy} />
          {light.length > 0 && (
            <details className={styles.further}>
              <summary>{light.length} fasteners that would save time but no step</summary>
              <BurdenTable rows={light} />
            </details>
          )}
        </>
      )}
    </section>
  );
};

const BurdenTable = ({ rows }: { readonly rows: Verdict['burden'] }) => (
  <LedgerTable
    caption="Shared burden, heaviest first"
    rows={rows}
    rowKey={({ fastener }) => fastener}
    columns={[
      { name: 'fastener', cell: ({ name }) => name },
      { name: 'steps saved', figure: true, cell: ({ steps }) => steps },
      {
        name: 'time saved, min:s',
        figure: true,
        cell: ({ seconds }) => (seconds > 0 ? clockText(seconds) : 'not measured'),
      },
    ]}
  />
);
