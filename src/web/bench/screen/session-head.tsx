import { useEffect, useRef, useState } from 'react';
import { clockFace } from '../clock/session-clock.ts';
import { entryWords } from '../live/entry-words.ts';
import styles from './bench-session.module.css';
import type { Bench } from './use-bench.ts';

/** Specimen, kind, mode; and the session's clock, large. */
export const SessionHead = ({
  bench,
  specimen,
  isWriting,
  onKeys,
  onLeave,
}: {
  readonly bench: Bench;
  /** How the specimen is called. */
  readonly specimen: string;
  readonly isWriting: boolean;
  readonly onKeys: () => void;
  readonly onLeave: () => void;
}) => {
  const { session, hold, retake } = bench;
  const firmware = session.firmware === undefined ? '' : ` · ${session.firmware}`;
  const operator = session.operator === undefined ? '' : ` · operator ${session.operator}`;
  return (
    <header className={styles.head}>
      <span>
        {specimen}
        {firmware}
      </span>
      <span>
        {session.kind}
        {operator} · {session.blind ? 'blind' : 'seeing'}
      </span>
      <span className={styles.mode} role="status">
        {isWriting ? 'Line: letters are text' : 'Keys: letters are orders'}
      </span>
      <Clock bench={bench} />
      {retake && <span className={styles.held}>{retakeWords(bench)}</span>}
      {hold && <span className={styles.held}>hold: {hold[1].reason}</span>}
      <button type="button" onClick={onKeys}>
        Keys and pedals
      </button>
      <button type="button" onClick={onLeave}>
        Leave
      </button>
    </header>
  );
};

const retakeWords = ({ session, retake, readout }: Bench): string => {
  const again = session.entries[retake?.[1].repeats ?? ''];
  return ['retake', again && entryWords(again, readout.device)].filter(Boolean).join(': ');
};

/** The clock redraws itself; nothing else of the bench does with it. */
const Clock = ({ bench: { now, hold } }: { readonly bench: Bench }) => {
  const [seconds, setSeconds] = useState(now);
  const latest = useRef(now);
  latest.current = now;
  useEffect(() => {
    const timer = setInterval(() => setSeconds(latest.current()), 200);
    return () => clearInterval(timer);
  }, []);
  return (
    <time className={styles.clock} role="timer" aria-label="Session time" data-held={hold !== undefined}>
      {clockFace(hold ? hold[1].from : seconds)}
    </time>
  );
};
