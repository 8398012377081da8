import { clockFace } from '../clock/session-clock.ts';
import styles from './bench-session.module.css';
import { type BenchOrder, type KeyMap, keyName } from './key-map.ts';
import { OrderButton } from './order-button.tsx';
import type { Bench } from './use-bench.ts';

const OFFERED: readonly BenchOrder[] = ['take', 'partial', 'failed', 'damage', 'later', 'undo', 'write'];

const STEPS: readonly BenchOrder[] = ['earlier', 'next'];

/** The mark that has just been made, what it may have been, and what can be said of it. */
export const MarkPanel = ({
  bench: { mark, session, suggestion, readout },
  keys,
  give,
}: {
  readonly bench: Bench;
  readonly keys: KeyMap;
  readonly give: (order: BenchOrder) => void;
}) => {
  const entry = mark === undefined ? undefined : session.entries[mark];
  const others = readout.unnamed.length - 1;
  return (
    <section className={styles.mark} aria-live="polite" aria-label="Mark">
      <h2>
        {entry ? `Marked ${clockFace(entry.at)} · not named yet` : 'Nothing to name'}
        {entry && others > 0 ? ` · ${others} more` : ''}
      </h2>
      <p className={styles.thought} dir="auto">
        {suggestion ? `${suggestion.words}?` : entry ? 'What was it?' : `${keyName(keys.mark)} marks a time.`}
      </p>
      {suggestion && <p className={styles.soft}>Proposed: {suggestion.why}.</p>}
      <div className={styles.offers}>
        {(entry && others > 0 ? [...OFFERED, ...STEPS] : OFFERED).map((order) => (
          <OrderButton
            key={order}
            order={order}
            keys={keys}
            onPress={() => give(order)}
            isDisabled={order === 'take' && !suggestion}
          />
        ))}
      </div>
    </section>
  );
};
