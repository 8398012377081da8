import type { ReactNode } from 'react';
import styles from './notice.module.css';

/** A line that says what stands in the way and what to do. `needs` when it needs the person; announced either way. */
export const Notice = ({ needs, children }: { readonly needs?: boolean; readonly children: ReactNode }) => (
  <div className={needs ? `${styles.notice} ${styles.needs}` : styles.notice} role={needs ? 'alert' : 'status'}>
    {children}
  </div>
);
