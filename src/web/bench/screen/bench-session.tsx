import { lazy, memo, Suspense, useCallback, useEffect, useRef, useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import type { OpenAssessment } from '../../ledger/open-assessment.ts';
import { Notice } from '../../look/notice.tsx';
import styles from './bench-session.module.css';
import { EntryLine } from './entry-line.tsx';
import { GoingFor } from './going-for.tsx';
import type { Answer } from './harm-acts.ts';
import { type BenchOrder, keptKeys, orderOf } from './key-map.ts';
import { LogColumn } from './log-column.tsx';
import { MarkPanel } from './mark-panel.tsx';
import { QuestionPanel } from './question-panel.tsx';
import { SessionHead } from './session-head.tsx';
import { Tiles } from './tiles.tsx';
import { type Bench, useBench } from './use-bench.ts';

const BenchDialogs = lazy(async () => ({ default: (await import('./bench-dialogs.tsx')).BenchDialogs }));
const ClockCardSheet = lazy(async () => ({ default: (await import('./clock-card-sheet.tsx')).ClockCardSheet }));

/** What lies over the bench. */
export type BenchSheet = 'goal' | 'hold' | 'damage' | 'overlap' | 'catch-up' | 'incident' | 'keys' | 'card';

interface BenchSessionProps {
  readonly open: OpenAssessment;
  readonly document: Assessment;
  readonly session: string;
  readonly onLeave: () => void;
}

/**
 * One session at the bench: blind, one key a mark. Dark unless the person chose the light sheet. Drawn anew where the document
 * changed, and not for what becomes of a change on its way to the disk.
 */
export const BenchSession = memo(({ open, document: record, session, onLeave }: BenchSessionProps) => {
  const [sheet, setSheet] = useState<BenchSheet>();
  const [isWriting, setWriting] = useState(false);
  const [isOnAir, setOnAir] = useState(false);
  const bench = useBench(open, record, { session, isOnAir });
  const [keys, setKeys] = useState(keptKeys);
  const [incident, setIncident] = useState<string>();
  const openIncident = (note?: string) => {
    setIncident(bench.acts.incident(note));
    setSheet('incident');
  };
  const give = useOrders(bench, { setSheet, setWriting, setOnAir, openIncident });
  const specimen = record.specimens?.[bench.session.specimen];
  useBenchLights();
  useKeys({ isOff: isWriting || sheet !== undefined, keys, give });
  return (
    <div className={[styles.bench, isOnAir && styles.onAir].filter(Boolean).join(' ')} data-bench>
      <SessionHead
        bench={bench}
        specimen={specimen?.name ?? `specimen ${bench.session.specimen}`}
        isWriting={isWriting}
        onKeys={() => setSheet('keys')}
        onLeave={onLeave}
      />
      <ClockNews bench={bench} />
      <div className={styles.columns}>
        <div className={styles.before}>
          <Cautions bench={bench} />
          <LogColumn bench={bench} />
        </div>
        <div className={styles.middle}>
          <QuestionPanel bench={bench} keys={keys} />
          <MarkPanel bench={bench} keys={keys} give={give} />
          <EntryLine
            bench={bench}
            keys={keys}
            isWriting={isWriting}
            setWriting={setWriting}
            onIncident={openIncident}
          />
          <Tiles bench={bench} give={give} />
        </div>
        <GoingFor bench={bench} keys={keys} give={give} />
      </div>
      <Suspense fallback={null}>
        {sheet === 'card' && <ClockCardSheet bench={bench} session={session} onClose={() => setSheet(undefined)} />}
        {sheet !== undefined && sheet !== 'card' && (
          <BenchDialogs
            bench={bench}
            sheet={sheet}
            incident={incident}
            keys={keys}
            setKeys={setKeys}
            onClose={() => setSheet(undefined)}
          />
        )}
      </Suspense>
    </div>
  );
});
BenchSession.displayName = 'BenchSession';

/** Before the log and beside the tiles, so that no tile moves under a hand when one comes or goes. */
const Cautions = ({ bench: { cautions } }: { readonly bench: Bench }) =>
  cautions.map(({ id: key, title, text, source }) => (
    <section key={key} className={styles.caution} aria-label="Caution">
      <p>
        <strong>{title}.</strong> {text} <span className={styles.soft}>({source})</span>
      </p>
    </section>
  ));

/** What the clocks did that should be known, and what to make of it. */
const ClockNews = ({ bench: { news, away, acts } }: { readonly bench: Bench }) => {
  if (news === undefined) return null;
  const offers = [
    { words: 'It was a pause', act: acts.holdAway, isOffered: away !== undefined },
    { words: 'Work went on', act: acts.workedOn, isOffered: (away?.stood ?? 0) > 0 },
    { words: 'Seen', act: acts.forgetNews, isOffered: true },
  ];
  return (
    <Notice needs>
      {news}
      {offers
        .filter(({ isOffered }) => isOffered)
        .map(({ words, act }) => (
          <button key={words} type="button" className={styles.offer} onClick={act}>
            {words}
          </button>
        ))}
    </Notice>
  );
};

/** Turns the lights down while the bench is on the screen; the light sheet stays where it was chosen. */
const useBenchLights = () => {
  useEffect(() => {
    document.documentElement.dataset.bench = '';
    return () => {
      delete document.documentElement.dataset.bench;
    };
  }, []);
};

interface OrderSetters {
  readonly setSheet: (sheet: BenchSheet) => void;
  readonly setWriting: (is: boolean) => void;
  readonly setOnAir: (change: (was: boolean) => boolean) => void;
  readonly openIncident: () => void;
}

/** What each order does, whether a key, a pedal or a tile gives it. */
const useOrders = (bench: Bench, { setSheet, setWriting, setOnAir, openIncident }: OrderSetters) => {
  const { acts, hold, marks, question } = bench;
  const latest = useRef<(order: BenchOrder, pressedAt: number) => void>(undefined);
  latest.current = (order, pressedAt) => {
    const answer = (came: Answer) => () => question && acts.answer(question, came);
    const does: Readonly<Record<BenchOrder, () => void>> = {
      mark: () => acts.markTime(performance.now() - pressedAt),
      take: () => acts.takeSuggestion(),
      partial: () => acts.takeSuggestion('partial'),
      failed: () => acts.takeSuggestion('failed'),
      damage: () => setSheet('damage'),
      later: acts.putOff,
      earlier: () => marks.step(-1),
      next: () => marks.step(1),
      undo: acts.undo,
      write: () => setWriting(true),
      goal: () => setSheet('goal'),
      hold: () => (hold ? acts.holdOrResume('') : setSheet('hold')),
      retake: () => acts.retakeOrReturn(),
      overlap: () => setSheet('overlap'),
      'catch-up': () => setSheet('catch-up'),
      'on-air': () => setOnAir((was) => !was),
      card: () => setSheet('card'),
      incident: openIncident,
      came: answer('yes'),
      'not-came': answer('no'),
      'came-damaged': answer('damaged'),
      'not-tried': answer('not-tried'),
    };
    does[order]();
  };
  return useCallback((order: BenchOrder, pressedAt = performance.now()) => latest.current?.(order, pressedAt), []);
};

/** Single keys are orders only while nothing is written and nothing lies over the bench (WCAG 2.1.4); each can be bound anew. */
const useKeys = ({
  isOff,
  keys,
  give,
}: {
  readonly isOff: boolean;
  readonly keys: ReturnType<typeof keptKeys>;
  readonly give: (order: BenchOrder, pressedAt: number) => void;
}) => {
  useEffect(() => {
    if (isOff) return;
    const press = (event: KeyboardEvent) => {
      const isField =
        event.target instanceof HTMLElement && event.target.closest('input, textarea, select, [contenteditable]');
      if (isField || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
      const order = orderOf(keys, event.key);
      // Enter on a button presses the button; the pedal marks wherever the focus is.
      const isPress = event.key === 'Enter' && event.target instanceof HTMLElement && event.target.closest('button, a');
      if (order === undefined || isPress) return;
      event.preventDefault();
      give(order, event.timeStamp);
    };
    window.addEventListener('keydown', press);
    // A button presses itself when the space bar comes up.
    const lift = (event: KeyboardEvent) => {
      if (event.key === ' ' && orderOf(keys, ' ') !== undefined && event.target instanceof HTMLButtonElement)
        event.preventDefault();
    };
    window.addEventListener('keyup', lift);
    return () => {
      window.removeEventListener('keydown', press);
      window.removeEventListener('keyup', lift);
    };
  }, [isOff, keys, give]);
};
