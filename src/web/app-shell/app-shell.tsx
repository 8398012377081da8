import { Link, Outlet, useMatch } from '@tanstack/react-router';
import styles from './app-shell.module.css';
import { SectionLinks } from './section-links.tsx';
import { ThemeSwitch } from './theme-switch.tsx';

/** The frame of every screen: the way to what matters, the name, the switch of sheets. */
export const AppShell = () => {
  // At the bench nothing stands beside its orders.
  const bench = useMatch({ from: '/a/$assessment/bench', shouldThrow: false });
  return (
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
        {!bench && <SectionLinks />}
        <Outlet />
      </main>
    </div>
  );
};
