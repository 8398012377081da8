import { counted } from '#quantity/counts';
import styles from './bench-session.module.css';
import type { BenchOrder, KeyMap } from './key-map.ts';
import { OrderButton } from './order-button.tsx';
import type { Bench } from './use-bench.ts';

/** What the operator is going for, what is off, and what goes on beside. */
export const GoingFor = ({
  bench,
  keys,
  give,
}: {
  readonly bench: Bench;
  readonly keys: KeyMap;
  readonly give: (order: BenchOrder) => void;
}) => {
  const { goal, readout, overlaps, notTried, acts } = bench;
  const goalName = goal === undefined ? 'none' : (readout.device.parts.get(goal)?.name ?? goal);
  return (
    <aside className={styles.going} aria-label="Going for">
      <h2>Going for</h2>
      <dl>
        <dt>goal</dt>
        <dd dir="auto">{goalName}</dd>
        <dt>depth so far</dt>
        <dd>{counted(readout.depth, 'step')}</dd>
        <dt>unnamed marks</dt>
        <dd>{readout.unnamed.length}</dd>
        {notTried > 0 && (
          <>
            <dt>not tried</dt>
            <dd>{notTried}</dd>
          </>
        )}
      </dl>
      <div className={styles.orders}>
        {(['goal', 'hold', 'retake', 'overlap', 'catch-up', 'on-air', 'card'] as const).map((order) => (
          <OrderButton key={order} order={order} keys={keys} onPress={() => give(order)} />
        ))}
      </div>
      {overlaps.map(([key, entry]) => (
        <button
          key={key}
          type="button"
          className={styles.offer}
          onClick={() =>
            acts.stopOverlap(key, {
              do: 'heat',
              ...(entry.place === undefined ? {} : { place: entry.place }),
              attended: false,
            })
          }
        >
          End: {entry.place ?? 'heat'}
        </button>
      ))}
      {/* After the orders, so that no list pushes them off the screen. */}
      <dl>
        <dt>free</dt>
        <dd dir="auto">{readout.partsFree.join(', ') || '–'}</dd>
        <dt>aside</dt>
        <dd dir="auto">{readout.partsAside.join(', ') || '–'}</dd>
      </dl>
    </aside>
  );
};
