import { memo, useEffect, useRef } from 'react';
import { clockFace } from '../clock/session-clock.ts';
import type { LogLine } from '../live/log-lines.ts';
import styles from './bench-session.module.css';
import type { Bench } from './use-bench.ts';

/** Lines drawn at once: a long session stays fast, and nobody reads further back at the bench. */
const DRAWN = 200;

/** Further down than any list goes [px]: to read how far this one goes would lay the page out once more at every mark. */
const FAR_DOWN = 1_000_000;

/** The log, the newest at the end and in sight. */
export const LogColumn = ({ bench: { readout, mark, marks } }: { readonly bench: Bench }) => {
  const list = useRef<HTMLOListElement>(null);
  const { log } = readout;
  useEffect(() => {
    // Only the list is scrolled: the page must not move under a hand.
    if (list.current && log.length > 0) list.current.scrollTop = FAR_DOWN;
  }, [log.length]);
  const hidden = log.length - DRAWN;
  return (
    <section className={styles.log} aria-labelledby="bench-log">
      <h2 id="bench-log">Log</h2>
      {log.length === 0 && <p className={styles.soft}>Nothing yet. The first mark begins it.</p>}
      {hidden > 0 && <p className={styles.soft}>{hidden} earlier ones are in the record.</p>}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <ol ref={list} className={styles.lines} tabIndex={0} aria-label="Log of this session">
        {log.slice(-DRAWN).map((line) => (
          <LogRow key={line.key} line={line} isMark={line.key === mark} goTo={marks.goTo} />
        ))}
      </ol>
    </section>
  );
};

/** One line. Drawn anew only where what it says changed, so that a mark costs one line and not the whole log. */
const LogRow = memo(
  ({ line, isMark, goTo }: { readonly line: LogLine; readonly isMark: boolean; readonly goTo: Goes }) => (
    <li data-state={line.state} aria-current={isMark ? 'step' : undefined}>
      <span>{clockFace(line.at)}</span>
      <span dir="auto">
        {line.state === 'unnamed' && !isMark ? (
          <button
            type="button"
            className={styles.unnamed}
            onClick={(event) => {
              event.currentTarget.blur();
              goTo(line.key);
            }}
          >
            {line.words}
          </button>
        ) : (
          wordsOf(line)
        )}
      </span>
      <span>{line.took === undefined ? '' : shortTime(line.took)}</span>
    </li>
  ),
);
LogRow.displayName = 'LogRow';

type Goes = Bench['marks']['goTo'];

const wordsOf = ({ words, state }: LogLine): string => (state === 'suggested' ? `${words} (as suggested)` : words);

const shortTime = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, '0')}`;
