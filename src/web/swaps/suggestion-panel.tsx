import type { Assessment } from '#record/schema/assessment';
import { ARM_NAMES } from '#swaps/model/fit-words';
import { Button } from '../look/button.tsx';
import { beginSuggested, runLines, runTitle } from './begin-run.ts';
import type { SuggestedRun } from './plan-of-bench.ts';
import styles from './run-sheet.module.css';
import { ARM_WHYS } from './swap-words.ts';
import type { SwapsView } from './swaps-client.ts';

interface SuggestionProps {
  readonly document: Assessment;
  readonly view: SwapsView;
  readonly onSuggested: (suggested: SuggestedRun) => void;
}

/** The next run, in large type: what to fit where, and what for. */
export const SuggestionPanel = ({ document, view, onSuggested }: SuggestionProps) => {
  const { next, nextOf, problem, busy } = view;
  const isStale = nextOf !== document;
  return (
    <section aria-labelledby="next-run" aria-busy={isStale && busy} className={styles.next}>
      <h2 id="next-run" tabIndex={-1}>
        Next run
      </h2>
      <div role="status">
        {isStale && busy && <p className={styles.hint}>Being worked out …</p>}
        {problem !== undefined && !busy && <p className={styles.fault}>No run can be suggested: {problem}</p>}
      </div>
      {!isStale && next?.why !== undefined && <p className={styles.big}>{next.why}</p>}
      {!isStale && next?.run && <Suggestion document={document} run={next.run} onSuggested={onSuggested} />}
    </section>
  );
};

interface OneProps {
  readonly document: Assessment;
  readonly run: SuggestedRun;
  readonly onSuggested: (suggested: SuggestedRun) => void;
}

const Suggestion = ({ document, run, onSuggested }: OneProps) => {
  const draft = beginSuggested(document, run, { now: '1970-01-01T00:00:00Z', operator: '' });
  const arms = [...new Set(run.fits.map(({ arm }) => arm))];
  return (
    <>
      <p className={styles.title} dir="auto">
        {runTitle(document, draft)}
      </p>
      <ul className={styles.todo}>
        {runLines(document, draft).map((line) => (
          <li key={line} dir="auto">
            {line}
          </li>
        ))}
      </ul>
      {arms.map((arm) => (
        <p key={arm} className={styles.why}>
          <strong>{ARM_NAMES[arm]}:</strong> {ARM_WHYS[arm]}
        </p>
      ))}
      <p className={styles.hint}>
        About {minutesWords(run.minutes)}. {matingsWords(document, run)}
      </p>
      <div>
        <Button main onPress={() => onSuggested(run)}>
          Make this run
        </Button>
      </div>
    </>
  );
};

const minutesWords = (minutes: number): string => `${Math.max(1, Math.round(minutes))} min`;

const matingsWords = (document: Assessment, { fits }: SuggestedRun): string => {
  const limited = fits.flatMap(({ part, matingsLeft }) =>
    matingsLeft === undefined
      ? []
      : [`${document.parts?.[part]?.name ?? part} ${matingsLeft === 1 ? 'once' : `${matingsLeft} times`}`],
  );
  return limited.length === 0 ? '' : `Its connectors may still be mated: ${limited.join('; ')}.`;
};
