import { Link, Outlet, useParams } from '@tanstack/react-router';
import { lazy, Suspense, useState } from 'react';
import { useAssessment } from '../ledger/use-assessment.ts';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { AREAS } from './areas.ts';
import styles from './assessment-frame.module.css';
import { LinkLine } from './link-line.tsx';

const ConflictDialog = lazy(async () => ({ default: (await import('./conflict-dialog.tsx')).ConflictDialog }));

/** The frame of everything about one assessment: its name, its areas, how the line to the ledger is, what waits. */
export const AssessmentFrame = () => {
  const { assessment } = useParams({ from: '/a/$assessment' });
  const { open, snapshot } = useAssessment(assessment);
  const [decides, setDecides] = useState(false);
  const { document, conflicts } = snapshot;
  return (
    <>
      <title>{`${document.product.name || assessment} · Unfasten`}</title>
      <div className={styles.head}>
        <h1 dir="auto">{document.product.name || assessment}</h1>
        <LinkLine snapshot={snapshot} />
      </div>
      <nav className={styles.areas} aria-label="Areas of this assessment" data-screen-only>
        {AREAS.map(({ name, to }) => (
          <Link key={to} to={to} params={{ assessment }} activeOptions={{ exact: to === '/a/$assessment' }}>
            {name}
          </Link>
        ))}
      </nav>
      {conflicts.length > 0 && (
        <Notice needs>
          <p>
            <strong>{conflicts.length === 1 ? 'One change waits' : `${conflicts.length} changes wait`} for you.</strong>{' '}
            Another version of the same place was there first. Everything else is kept.
          </p>
          <Button onPress={() => setDecides(true)}>Look at both versions</Button>
        </Notice>
      )}
      <Outlet />
      {decides && (
        <Suspense fallback={null}>
          <ConflictDialog open={open} conflicts={conflicts} onClose={() => setDecides(false)} />
        </Suspense>
      )}
    </>
  );
};
