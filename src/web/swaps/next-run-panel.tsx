import { Link } from '@tanstack/react-router';
import { lazy, Suspense, useId, useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import { Button } from '../look/button.tsx';
import { SelectField } from '../look/select-field.tsx';
import { draftOfSwaps } from './draft-of-swaps.ts';
import { PlanFold } from './plan-fold.tsx';
import type { SuggestedRun } from './plan-of-bench.ts';
import { type RecordedRun, recordedRuns, runLine, specimenName } from './recorded-runs.ts';
import type { RunDraft } from './run-draft.ts';
import styles from './run-sheet.module.css';
import { SuggestionPanel } from './suggestion-panel.tsx';
import type { SwapsView } from './swaps-client.ts';
import type { DraftsInHand } from './use-drafts.ts';

const RunDialog = lazy(async () => ({ default: (await import('./run-dialog.tsx')).RunDialog }));

interface NextRunProps {
  readonly open: OpenAssessment;
  readonly document: Assessment;
  readonly view: SwapsView;
  readonly drafts: DraftsInHand;
  readonly onSuggested: (suggested: SuggestedRun) => void;
  readonly onHost: (host: string) => void;
}

/** Between two runs: what to run next, what waits to be gone on with, and what was run last. */
export const NextRunPanel = ({ open, document, view, drafts, onSuggested, onHost }: NextRunProps) => {
  const runs = recordedRuns(document);
  return (
    <div className={styles.between}>
      <SuggestionPanel document={document} view={view} onSuggested={onSuggested} />
      <Waiting document={document} runs={runs} drafts={drafts} />
      <ByHand document={document} onHost={onHost} />
      <PlanFold document={document} />
      <LastRuns open={open} document={document} runs={runs} onCorrect={drafts.put} />
    </div>
  );
};

interface WaitingProps {
  readonly document: Assessment;
  readonly runs: readonly RecordedRun[];
  readonly drafts: DraftsInHand;
}

/** Runs broken off, and runs that were written on this sheet and not saved. */
const Waiting = ({ document, runs, drafts }: WaitingProps) => {
  const broken = runs.filter(({ isBrokenOff }) => isBrokenOff);
  if (broken.length === 0 && drafts.aside.length === 0) return null;
  return (
    <section aria-labelledby="waiting-runs">
      <h2 id="waiting-runs">Waiting to be gone on with</h2>
      <ul className={styles.rows}>
        {drafts.aside.map((draft, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two drafts may have one number
          <li key={index}>
            <span>
              Run {draft.run}, {specimenName(document, draft.host)}: on this sheet, not saved
            </span>
            <Button label={`Go on with run ${draft.run}, not saved`} onPress={() => drafts.takeUp(index)}>
              Go on
            </Button>
          </li>
        ))}
        {broken.map((run) => (
          <li key={`${run.run} ${run.host}`}>
            <span>
              Run {run.run}, {specimenName(document, run.host)}: broken off. {runLine(document, run)}
            </span>
            <Button
              label={`Go on with run ${run.run}`}
              onPress={() => {
                const draft = draftOfSwaps(document, run.fits);
                if (draft) drafts.put(draft);
              }}
            >
              Go on
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
};

const ByHand = ({ document, onHost }: Pick<NextRunProps, 'document' | 'onHost'>) => {
  const hosts = Object.keys(document.specimens ?? {});
  const preferred = document.swapBench?.hosts?.[0];
  const [chosen, setHost] = useState<string>();
  const host = chosen ?? preferred ?? hosts[0];
  const heading = useId();
  return (
    <section aria-labelledby={heading}>
      <h2 id={heading}>Another run</h2>
      {host === undefined ? (
        <p>
          The record has no specimen yet. One is taken in where a session begins, at the{' '}
          <Link to="/a/$assessment/bench" from="/a/$assessment">
            bench
          </Link>
          .
        </p>
      ) : (
        <div className={styles.byHand}>
          <SelectField
            label="Specimen that is started"
            value={host}
            options={hosts.map((value) => ({ value, label: specimenName(document, value) }))}
            onChange={setHost}
          />
          <Button onPress={() => onHost(host)}>Begin a run of it</Button>
        </div>
      )}
    </section>
  );
};

/** How many runs are shown at first. */
const SHOWN = 6;

interface LastRunsProps {
  readonly open: OpenAssessment;
  readonly document: Assessment;
  readonly runs: readonly RecordedRun[];
  readonly onCorrect: (draft: RunDraft) => void;
}

const LastRuns = ({ open, document, runs, onCorrect }: LastRunsProps) => {
  const [isAll, setAll] = useState(false);
  const [looked, setLooked] = useState<string>();
  const newest = [...runs].reverse();
  if (newest.length === 0) return null;
  return (
    <section aria-labelledby="last-runs">
      <h2 id="last-runs">Runs on record</h2>
      <ol className={styles.rows} reversed>
        {newest.slice(0, isAll ? newest.length : SHOWN).map((run) => (
          <li key={`${run.run} ${run.host}`}>
            <span>
              <strong>Run {run.run}</strong>, {specimenName(document, run.host)}. {runLine(document, run)}
            </span>
            <Button label={`Open run ${run.run}`} onPress={() => setLooked(run.fits[0]?.[0])}>
              Open
            </Button>
          </li>
        ))}
      </ol>
      {!isAll && newest.length > SHOWN && (
        <div>
          <Button onPress={() => setAll(true)}>Show the other {newest.length - SHOWN}</Button>
        </div>
      )}
      {looked !== undefined && (
        <Suspense fallback={null}>
          <RunDialog
            open={open}
            document={document}
            id={looked}
            onLook={setLooked}
            onCorrect={onCorrect}
            onClose={() => setLooked(undefined)}
          />
        </Suspense>
      )}
    </section>
  );
};
