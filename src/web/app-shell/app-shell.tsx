import { Link, Outlet } from '@tanstack/react-router';
import styles from './app-shell.module.css';
import { ThemeSwitch } from './theme-switch.tsx';

/** The frame of every screen: the way to what matters, the name, the switch of sheets. */
export const AppShell = () => (
  <div className={styles.shell}>
    <a className={styles.skip} href="#content">
      To the content
    </a>
    <header className={styles.head} data-screen-only>
      <Link to="/" className={styles.name}>
        Unfasten
      </Link>
      <Link to="/rubric" className={styles.link}>
        House rubric
      </Link>
      <ThemeSwitch />
    </header>
    <main id="content" className={styles.content} tabIndex={-1}>
      <Outlet />
    </main>
  </div>
);
