import { entryWords } from '../live/entry-words.ts';
import styles from './bench-session.module.css';
import type { Answer } from './harm-acts.ts';
import { type BenchOrder, type KeyMap, keyName } from './key-map.ts';
import { OrderButton } from './order-button.tsx';
import type { Bench } from './use-bench.ts';

/** Which order gives which answer, in the order in which they stand. */
const ANSWER_ORDERS: readonly (readonly [BenchOrder, Answer])[] = [
  ['came', 'yes'],
  ['not-came', 'no'],
  ['came-damaged', 'damaged'],
  ['not-tried', 'not-tried'],
];

/** The question that can only be answered before the next act, and the act that waits for it. */
export const QuestionPanel = ({
  bench: { question, waiting, readout, acts },
  keys,
}: {
  readonly bench: Bench;
  readonly keys: KeyMap;
}) => {
  if (!question) return null;
  const [first] = waiting;
  return (
    <section className={styles.question} aria-live="polite" aria-label="Before you go on">
      <h2>Before you go on</h2>
      <p dir="auto">
        {question.statement} {question.question} <span className={styles.soft}>Last chance to see.</span>
      </p>
      <div className={styles.offers}>
        {ANSWER_ORDERS.map(([order, came]) => (
          <OrderButton key={order} order={order} keys={keys} onPress={() => acts.answer(question, came)} />
        ))}
      </div>
      {first && (
        <p className={styles.soft} dir="auto">
          Waiting, its time marked: {entryWords({ at: 0, ...first.naming }, readout.device)}
          {waiting.length > 1 ? `, and ${waiting.length - 1} more` : ''}. {keyName(keys.undo)} drops it.
        </p>
      )}
    </section>
  );
};
