import styles from './bench-session.module.css';
import { type BenchOrder, type KeyMap, keyName, ORDER_WORDS } from './key-map.ts';

/** A button for one order, with its key and its words: `G goal`. */
export const OrderButton = ({
  order,
  keys,
  onPress,
  isDisabled = false,
}: {
  readonly order: BenchOrder;
  readonly keys: KeyMap;
  readonly onPress: () => void;
  readonly isDisabled?: boolean;
}) => (
  <button
    type="button"
    className={styles.offer}
    disabled={isDisabled}
    onClick={(event) => {
      // The pedal must not press the button that was touched last.
      event.currentTarget.blur();
      onPress();
    }}
  >
    <kbd>{keyName(keys[order])}</kbd> {ORDER_WORDS[order]}
  </button>
);
