import { useParams } from '@tanstack/react-router';
import { keysOf, valueAt } from '#record/patch/json-pointer';
import type { Assessment } from '#record/schema/assessment';
import type { EngineView } from '../engine/engine-client.ts';
import { useVerdict } from '../engine/use-verdict.ts';
import { useAssessment } from '../ledger/use-assessment.ts';
import { LedgerTable } from '../look/ledger-table.tsx';
import { EvidencePanel } from './evidence-panel.tsx';
import { FactField } from './fact-field.tsx';
import { factPatch } from './fact-patch.ts';
import styles from './record-screen.module.css';

/** What a record holds: the head of it to write in, the rest in numbers. */
export const RecordScreen = () => {
  const { assessment } = useParams({ from: '/a/$assessment' });
  const { open, snapshot } = useAssessment(assessment);
  const { document } = snapshot;
  const engine = useVerdict(document, snapshot.revision);
  const write = (path: string, text: string) => {
    const patch = factPatch(open.snapshot().document, path, text);
    if (patch) void open.change(patch);
  };
  return (
    <div className={styles.sheet}>
      <section aria-labelledby="product">
        <h2 id="product">Product</h2>
        <div className={styles.facts}>
          {FACTS.map(([name, path]) => (
            <FactField
              key={path}
              name={name}
              value={textAt(document, path)}
              onCommit={(text) => write(path, text)}
              required={path === '/product/name'}
            />
          ))}
        </div>
      </section>
      <section aria-labelledby="on-record">
        <h2 id="on-record">What is on record</h2>
        <LedgerTable
          caption="What is on record"
          columns={COLUMNS}
          rows={countsOf(document)}
          rowKey={([name]) => name}
        />
      </section>
      <section aria-labelledby="computed">
        <h2 id="computed">Computed from it</h2>
        <Computed engine={engine} />
      </section>
      <EvidencePanel open={open} document={document} />
    </div>
  );
};

/** No score stands here: this screen may be looked at by whoever is at the bench. */
const Computed = ({ engine }: { readonly engine: EngineView }) => {
  const { verdict, problem, busy, revision } = engine;
  const counts: readonly Count[] = verdict
    ? [
        ['open facts', verdict.open.length],
        ['remarks on the record', verdict.remarks.length],
        ['parts with a shown route', verdict.parts.filter(({ best }) => best !== undefined).length],
      ]
    : [];
  return (
    <>
      {verdict && <LedgerTable caption="Computed" columns={COLUMNS} rows={counts} rowKey={([name]) => name} />}
      {problem !== undefined && <p className={styles.note}>{problem}</p>}
      <p className={styles.note} role="status">
        {busy ? 'Being computed …' : revision === undefined ? '' : `Of revision ${revision}`}
      </p>
    </>
  );
};

const FACTS: readonly (readonly [name: string, path: string])[] = [
  ['name', '/product/name'],
  ['maker', '/product/maker'],
  ['model', '/product/model'],
  ['released', '/product/released'],
  ['price', '/product/price'],
  ['predecessor', '/product/predecessor'],
  ['title', '/title'],
  ['laboratory', '/laboratory'],
];

type Count = readonly [name: string, count: number];

const COLUMNS = [
  { name: 'of', cell: ([name]: Count) => name },
  { name: 'count', cell: ([, count]: Count) => (count === 0 ? 'none yet' : count), figure: true },
];

const textAt = (document: Assessment, path: string): string => {
  const value = valueAt(document, keysOf(path));
  return typeof value === 'string' ? value : '';
};

const countsOf = (document: Assessment): readonly Count[] => {
  const sessions = Object.values(document.sessions ?? {});
  return [
    ['specimens', size(document.specimens)],
    ['parts', size(document.parts)],
    ['fasteners', size(document.fasteners)],
    ['sessions', sessions.length],
    ['log entries', sessions.reduce((sum, { entries }) => sum + size(entries), 0)],
    ['damage', size(document.damage)],
    ["maker's procedures", size(document.procedures)],
    ['spare parts on offer', size(document.spares)],
    ['evidence', size(document.evidence)],
  ];
};

const size = (map: object | undefined): number => Object.keys(map ?? {}).length;
