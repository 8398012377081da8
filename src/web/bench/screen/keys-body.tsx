import { useState } from 'react';
import styles from './bench-session.module.css';
import { type BenchOrder, bindKey, type KeyMap, keepKeys, keyName, ORDER_WORDS } from './key-map.ts';

/** Which key gives which order, and giving it another. */
export const KeysBody = ({ keys, setKeys }: { readonly keys: KeyMap; readonly setKeys: (keys: KeyMap) => void }) => {
  const [waiting, setWaiting] = useState<BenchOrder>();
  const [said, setSaid] = useState('Choose an order, then press the key or pedal for it.');
  const bind = (order: BenchOrder, key: string) => {
    const bound = bindKey(keys, order, key);
    setSaid(bound ? `${keyName(key)}: ${ORDER_WORDS[order]}.` : `${keyName(key)} gives another order already.`);
    setWaiting(undefined);
    if (!bound) return;
    setKeys(bound);
    keepKeys(bound);
  };
  return (
    <>
      <p role="status">{said}</p>
      <ul className={styles.binding}>
        {(Object.keys(ORDER_WORDS) as BenchOrder[]).map((order) => (
          <li key={order}>
            <span>{ORDER_WORDS[order]}</span>
            <button
              type="button"
              aria-pressed={waiting === order}
              onClick={() => setWaiting(order)}
              onKeyDown={(event) => {
                if (waiting !== order || ['Tab', 'Shift', 'Escape'].includes(event.key)) return;
                event.preventDefault();
                event.stopPropagation();
                bind(order, event.key);
              }}
            >
              {waiting === order ? 'press it now' : keyName(keys[order])}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
};
