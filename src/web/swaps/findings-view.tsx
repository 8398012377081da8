import { Link, useNavigate, useParams } from '@tanstack/react-router';
import { lazy, Suspense, useCallback, useState } from 'react';
import type { SwapsVerdict, SwapVerdict } from '#verdict/swaps/swaps-verdict';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import type { Snapshot } from '../ledger/snapshot.ts';
import linkStyles from '../look/button.module.css';
import { Notice } from '../look/notice.tsx';
import { StatePage } from '../look/state-page.tsx';
import { EffectTableSection } from './effect-table-section.tsx';
import { putOnSheet } from './kept-run.ts';
import { PartFinding } from './part-finding.tsx';
import { RunNames } from './run-buttons.tsx';
import type { RunDraft } from './run-draft.ts';
import type { SwapsView } from './swaps-client.ts';
import styles from './swaps-screen.module.css';
import type { Predecessor } from './use-predecessor.ts';

const RunDialog = lazy(async () => ({ default: (await import('./run-dialog.tsx')).RunDialog }));

interface FindingsProps {
  readonly open: OpenAssessment;
  readonly snapshot: Snapshot;
  readonly view: SwapsView;
  readonly predecessor: Predecessor;
}

/** What the runs say: part after part the verdict at the level tested, and the effects by part and firmware. */
export const FindingsView = ({ open, snapshot, view, predecessor }: FindingsProps) => {
  const [looked, setLooked] = useState<string>();
  const isStale = view.swapsOf !== snapshot.document;
  const { swaps } = snapshot.document;
  const { assessment } = useParams({ from: '/a/$assessment' });
  const navigate = useNavigate();
  const correct = (draft: RunDraft) => {
    putOnSheet(assessment, draft);
    void navigate({ to: '/a/$assessment/swaps', params: { assessment } });
  };
  const runName = useCallback((id: string) => (swaps?.[id]?.run === undefined ? id : `run ${swaps[id].run}`), [swaps]);
  return (
    <RunNames.Provider value={runName}>
      <section aria-labelledby="what-runs-say" aria-busy={isStale} className={styles.findings}>
        <h2 id="what-runs-say">What the runs say</h2>
        <p className={styles.soft} role="status">
          {stateWords(view, isStale)}
        </p>
        {view.problem !== undefined && (
          <Notice needs>
            <p>
              <strong>The runs could not be read.</strong> {view.problem}
            </p>
          </Notice>
        )}
        {view.swapsOf !== undefined && <Found swaps={view.swaps} predecessor={predecessor} onRun={setLooked} />}
        {looked !== undefined && (
          <Suspense fallback={null}>
            <RunDialog
              open={open}
              document={snapshot.document}
              id={looked}
              onLook={setLooked}
              onCorrect={correct}
              onClose={() => setLooked(undefined)}
            />
          </Suspense>
        )}
      </section>
    </RunNames.Provider>
  );
};

const stateWords = (view: SwapsView, isStale: boolean): string => {
  if (!isStale) return 'Of the record as it stands, what is not sent yet included.';
  return view.swapsOf === undefined
    ? 'Being worked out …'
    : 'Being worked out anew; what stands here is of the record before.';
};

interface FoundProps {
  readonly swaps: SwapsVerdict | undefined;
  readonly predecessor: Predecessor;
  readonly onRun: (id: string) => void;
}

const Found = ({ swaps, predecessor, onRun }: FoundProps) => {
  const { assessment } = useParams({ from: '/a/$assessment' });
  if (!swaps)
    return (
      <StatePage title="No run is on record">
        <p>
          What the software makes of foreign parts is not known. Each run made at the bench is entered on the run sheet.
        </p>
        <Link
          to="/a/$assessment/swaps"
          params={{ assessment }}
          className={`${linkStyles.button} ${linkStyles.main} ${styles.toRuns}`}
        >
          To the run sheet
        </Link>
      </StatePage>
    );
  const names = new Map(swaps.parts.map(({ part, name }) => [part, name]));
  return (
    <>
      <p className={styles.soft}>
        Observations, not legal advice. An effect is told apart from its cause; one explanation of a part at a time is
        considered. {predecessorWords(predecessor)}
      </p>
      <Contents parts={swaps.parts} />
      <EffectTableSection table={swaps.table} nameOf={(part) => names.get(part) ?? part} />
      {swaps.parts.map((part) => (
        <PartFinding key={part.part} part={part} predecessor={swaps.predecessor} onRun={onRun} />
      ))}
      <Problems problems={swaps.problems} onRun={onRun} />
    </>
  );
};

const predecessorWords = (predecessor: Predecessor): string => {
  switch (predecessor.state) {
    case 'looked-for':
      return 'The predecessor is being looked for.';
    case 'not-named':
      return 'No predecessor is named, so nothing is held against one.';
    case 'not-there':
      return `The predecessor, ${predecessor.name}, is not on this shelf: what is carried over from it cannot be said here.`;
    case 'out-of-reach':
      return `The predecessor, ${predecessor.name}, could not be read just now: what is carried over from it is left out.`;
    case 'there':
      return `Held against the predecessor ${predecessor.name}.`;
  }
};

/** Where each part stands, in one look: the way down to it, and what is decided. */
const Contents = ({ parts }: { readonly parts: readonly SwapVerdict[] }) => (
  <ul className={styles.contents} aria-label="Parts and their causes">
    {parts.map(({ part, name, decided }) => (
      <li key={part}>
        <a href={`#finding-${part}`} dir="auto">
          {name}
        </a>
        <span>{decided?.name ?? 'undecided'}</span>
      </li>
    ))}
  </ul>
);

const Problems = ({
  problems,
  onRun,
}: {
  readonly problems: SwapsVerdict['problems'];
  readonly onRun: (id: string) => void;
}) =>
  problems.length === 0 ? null : (
    <section aria-labelledby="unused-fits">
      <h3 id="unused-fits">Fits that say nothing, or too little</h3>
      <ul className={styles.lines}>
        {problems.map(({ address, what }) => (
          <li key={`${address} ${what}`}>
            <button type="button" className={styles.run} onClick={() => onRun(address.replace(/^swaps\//, ''))}>
              {address.replace(/^swaps\//, '')}
            </button>{' '}
            {what}
          </li>
        ))}
      </ul>
    </section>
  );
