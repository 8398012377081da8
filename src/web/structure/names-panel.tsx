import { Link } from '@tanstack/react-router';
import { type RefObject, useMemo, useRef, useState } from 'react';
import { clockFace } from '../bench/clock/session-clock.ts';
import { reviewEntry } from '../bench/commands/bench-patches.ts';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import { Button } from '../look/button.tsx';
import styles from './names-panel.module.css';
import { type NameToConfirm, namesToConfirm } from './names-to-confirm.ts';
import type { ReviewSource } from './review-source.ts';

/** Names drawn at once. */
const DRAWN = 30;

interface NamesPanelProps {
  readonly source: ReviewSource;
  readonly open: OpenAssessment;
  readonly assessment: string;
}

/** Names taken as suggested, to say "so it was" of; and marks that have no name yet. */
export const NamesPanel = ({ source, open, assessment }: NamesPanelProps) => {
  const { document, device } = source;
  const [drawn, setDrawn] = useState(DRAWN);
  const list = useRef<HTMLUListElement>(null);
  const names = useMemo(() => namesToConfirm(document, device), [document, device]);
  const suggested = names.filter(({ kind }) => kind === 'suggested');
  const confirm = ({ session, entry }: NameToConfirm, place: number) => {
    void open.change(reviewEntry({ document: open.snapshot().document, session }, entry), 'reviewed: so it was');
    focusNext(list, place);
  };
  return (
    <section aria-labelledby="names-to-confirm" className={styles.names}>
      <h2 id="names-to-confirm">Names to confirm</h2>
      <Unnamed count={names.length - suggested.length} assessment={assessment} />
      <p role="status">{suggested.length === 0 ? 'No suggested name waits.' : waitingWords(suggested.length)}</p>
      <ul ref={list}>
        {suggested.slice(0, drawn).map((name, place) => (
          <li key={`${name.session} ${name.entry}`}>
            <span className={styles.when}>
              {name.session}, {clockFace(name.at)}
            </span>
            <span dir="auto">{name.words}</span>
            <Button
              onPress={() => confirm(name, place)}
              label={`So it was: ${name.words}, ${name.session} ${name.entry}`}
            >
              So it was
            </Button>
          </li>
        ))}
      </ul>
      <div className={styles.acts}>
        {suggested.length > drawn && <Button onPress={() => setDrawn(drawn + DRAWN)}>Show {DRAWN} more</Button>}
        {suggested.length > 0 && (
          <Link to="/a/$assessment/bench" params={{ assessment }}>
            It was not so: correct it at the bench
          </Link>
        )}
      </div>
    </section>
  );
};

const waitingWords = (count: number): string =>
  count === 1 ? '1 name was taken as suggested.' : `${count} names were taken as suggested.`;

const Unnamed = ({ count, assessment }: { readonly count: number; readonly assessment: string }) =>
  count > 0 && (
    <p>
      {count === 1 ? '1 mark has' : `${count} marks have`} no name yet:{' '}
      <Link to="/a/$assessment/bench" params={{ assessment }}>
        say at the bench what {count === 1 ? 'it was' : 'they were'}
      </Link>
      .
    </p>
  );

/** The line confirmed goes away; the keyboard stays where it was in the list. */
const focusNext = (list: RefObject<HTMLUListElement | null>, place: number): void => {
  const buttons = [...(list.current?.querySelectorAll('button') ?? [])];
  (buttons[place + 1] ?? buttons[place - 1])?.focus();
};
