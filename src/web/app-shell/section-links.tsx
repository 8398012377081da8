import { useEffect, useState } from 'react';
import styles from './section-links.module.css';

interface Section {
  readonly id: string;
  readonly name: string;
}

/** Fewer sections are as near by the tab key as by their links. */
const LEAST = 3;

/**
 * Ways past whole sections of a long screen (WCAG 2.4.1), for whoever goes by the keyboard: in view while one of them has the focus.
 * They follow from the headings that carry an id, so that a section that comes later is among them.
 */
export const SectionLinks = () => {
  const [sections, setSections] = useState<readonly Section[]>([]);
  useEffect(() => {
    const main = document.getElementById('content');
    if (!main) return;
    const look = () => setSections((before) => unlessSame(before, sectionsOf(main)));
    const observer = new MutationObserver(look);
    observer.observe(main, { childList: true, subtree: true });
    look();
    return () => observer.disconnect();
  }, []);
  if (sections.length < LEAST) return null;
  return (
    <nav className={styles.links} aria-label="Sections of this screen">
      <p aria-hidden>To a section of this screen:</p>
      {sections.map(({ id, name }) => (
        <a
          key={id}
          href={`#${id}`}
          onClick={(event) => {
            // Where one is on a screen is no place to come back to.
            event.preventDefault();
            goTo(id);
          }}
        >
          {name}
        </a>
      ))}
    </nav>
  );
};

/** The headings of the second level; of the third too where there are few of the second. */
const sectionsOf = (main: Element): readonly Section[] => {
  const second = main.querySelectorAll('h2[id]');
  const headings = second.length < LEAST ? main.querySelectorAll(':is(h2, h3)[id]') : second;
  return [...headings].map(({ id, textContent }) => ({ id, name: textContent }));
};

const unlessSame = (before: readonly Section[], now: readonly Section[]): readonly Section[] =>
  JSON.stringify(before) === JSON.stringify(now) ? before : now;

const goTo = (id: string) => {
  const heading = document.getElementById(id);
  if (!heading) return;
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
  heading.scrollIntoView();
};
