import type { ReactNode } from 'react';
import styles from './state-page.module.css';

/** What stands where a screen has nothing to show: empty, being loaded, failed. Says why, and what can be done. */
export const StatePage = ({
  title,
  children,
  busy,
}: {
  readonly title: string;
  readonly children?: ReactNode;
  readonly busy?: boolean;
}) => (
  <section className={styles.state} aria-busy={busy} role={busy ? 'status' : undefined}>
    <h2>{title}</h2>
    {children}
  </section>
);
