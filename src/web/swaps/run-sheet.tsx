import { useEffect, useRef, useState } from 'react';
import { keptAuthor, NOBODY_NAMED } from '../ledger/author.ts';
import { wallTime } from '../ledger/change-key.ts';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import type { Snapshot } from '../ledger/snapshot.ts';
import { Notice } from '../look/notice.tsx';
import { beginRun, beginSuggested } from './begin-run.ts';
import { NextRunPanel } from './next-run-panel.tsx';
import type { RunDraft } from './run-draft.ts';
import { RunForm } from './run-form.tsx';
import styles from './run-sheet.module.css';
import type { SwapsView } from './swaps-client.ts';
import { useDrafts } from './use-drafts.ts';

interface RunSheetProps {
  readonly open: OpenAssessment;
  readonly snapshot: Snapshot;
  readonly view: SwapsView;
  readonly assessment: string;
}

/** The run sheet at the bench: the next run, then one run at a time. */
export const RunSheet = ({ open, snapshot, view, assessment }: RunSheetProps) => {
  const drafts = useDrafts(assessment);
  const [saved, setSaved] = useState<string>();
  const news = useRef<HTMLDivElement>(null);
  const { document } = snapshot;
  const sheet = useFocusOnRun(drafts.current);
  // The button that was pressed is gone with its sheet: the focus must not be.
  useEffect(() => {
    if (saved !== undefined) news.current?.focus();
  }, [saved]);
  const beginning = () => {
    const author = keptAuthor();
    return { now: wallTime(), operator: author === NOBODY_NAMED ? '' : author };
  };
  return (
    <div ref={sheet} className={styles.bench}>
      {drafts.unkept && (
        <Notice needs>
          <p>
            <strong>This browser keeps nothing.</strong> What is typed here and not saved goes with the page.
          </p>
        </Notice>
      )}
      <div ref={news} tabIndex={-1} className={styles.news} role="status">
        {saved !== undefined && <p className={styles.saved}>{saved}</p>}
      </div>
      {drafts.current ? (
        <RunForm
          key={`${drafts.current.run} ${drafts.aside.length}`}
          open={open}
          document={document}
          run={drafts.current}
          drafts={drafts}
          onSaved={setSaved}
        />
      ) : (
        <NextRunPanel
          open={open}
          document={document}
          view={view}
          drafts={drafts}
          onSuggested={(suggested) => {
            setSaved(undefined);
            drafts.put(beginSuggested(document, suggested, beginning()));
          }}
          onHost={(host) => {
            setSaved(undefined);
            drafts.put(beginRun(document, host, beginning()));
          }}
        />
      )}
    </div>
  );
};

/** Where a run comes onto the sheet or goes from it, the button pressed for it is gone: its heading gets the focus that was lost. */
const useFocusOnRun = (current: RunDraft | undefined) => {
  const sheet = useRef<HTMLDivElement>(null);
  const isOn = current !== undefined;
  const before = useRef(isOn);
  useEffect(() => {
    if (before.current === isOn) return;
    before.current = isOn;
    if (window.document.activeElement === window.document.body) sheet.current?.querySelector('h2')?.focus();
  }, [isOn]);
  return sheet;
};
