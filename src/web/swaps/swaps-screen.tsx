import { Link, useParams, useRouterState } from '@tanstack/react-router';
import { useAssessment } from '../ledger/use-assessment.ts';
import { FindingsView } from './findings-view.tsx';
import { RunSheet } from './run-sheet.tsx';
import styles from './swaps-screen.module.css';
import { usePredecessor } from './use-predecessor.ts';
import { useSwaps } from './use-swaps.ts';

/** The swap bench: the run sheet, and what the runs say. */
export const SwapsScreen = () => {
  const { assessment } = useParams({ from: '/a/$assessment' });
  const { open, snapshot } = useAssessment(assessment);
  const predecessor = usePredecessor(snapshot.document);
  const view = useSwaps(snapshot.document, {
    predecessor: predecessor.state === 'there' ? predecessor.document : undefined,
  });
  const isFindings = useRouterState({ select: ({ location }) => location.pathname.endsWith('/findings') });
  return (
    <div className={styles.sheet}>
      <nav className={styles.views} aria-label="Views of the swaps" data-screen-only>
        <Link to="/a/$assessment/swaps" params={{ assessment }} activeOptions={{ exact: true }}>
          Run sheet
        </Link>
        <Link to="/a/$assessment/swaps/findings" params={{ assessment }}>
          What the runs say
        </Link>
      </nav>
      {isFindings ? (
        <FindingsView open={open} snapshot={snapshot} view={view} predecessor={predecessor} />
      ) : (
        <RunSheet open={open} snapshot={snapshot} view={view} assessment={assessment} />
      )}
    </div>
  );
};
