import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import type { Candidate } from '../entry-line/find-things.ts';
import { keyForName } from '../entry-line/key-for-name.ts';
import type { LineReading } from '../entry-line/read-line.ts';
import styles from './bench-session.module.css';
import { type KeyMap, keyName } from './key-map.ts';
import type { Bench } from './use-bench.ts';

interface EntryLineProps {
  readonly bench: Bench;
  readonly keys: KeyMap;
  readonly isWriting: boolean;
  readonly setWriting: (is: boolean) => void;
  readonly onIncident: (note: string) => void;
}

/** The line for words: no letter typed here is an order. Below it stands how it is understood. */
export const EntryLine = ({ bench, keys, isWriting, setWriting, onIncident }: EntryLineProps) => {
  const [line, setLine] = useState('');
  const [choice, setChoice] = useState<number>();
  const input = useRef<HTMLInputElement>(null);
  const list = useId();
  const reading = bench.read(line);
  const offered = line.trim() === '' ? [] : reading.candidates.slice(0, 5);
  // Where several fit nothing is chosen until the arrows or a press choose it.
  const chosen = choice ?? (reading.needsChoice || offered.length === 0 ? undefined : 0);
  useEffect(() => {
    if (isWriting) input.current?.focus();
  }, [isWriting]);
  const leave = () => {
    setLine('');
    setChoice(undefined);
    setWriting(false);
    input.current?.blur();
  };
  const take = (index: number | undefined) => {
    if (reading.order?.kind === 'incident') onIncident(reading.order.text);
    else enter(bench, reading, index);
    leave();
  };
  const press = (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (event.key === 'Escape') leave();
    else if (step !== undefined && offered.length > 0) setChoice(stepped(chosen, step, offered.length));
    else if (event.key === 'Enter' && line.trim() !== '') {
      if (chosen !== undefined || !reading.needsChoice) take(chosen);
    } else return;
    event.preventDefault();
  };
  return (
    <section className={styles.line} aria-label="Entry line">
      <label htmlFor={`${list}-line`}>
        <kbd>{keyName(keys.write)}</kbd> Entry line
      </label>
      <input
        ref={input}
        {...lineField(list, chosen, offered.length > 0)}
        value={line}
        onFocus={() => setWriting(true)}
        onBlur={() => setWriting(false)}
        onChange={(event) => {
          setLine(event.target.value);
          setChoice(undefined);
        }}
        onKeyDown={press}
      />
      <p className={styles.understood} aria-live="polite">
        {line.trim() === '' ? ' ' : saidOf(reading)}
      </p>
      <Offered list={list} offered={offered} chosen={chosen} onTake={take} />
    </section>
  );
};

/** The next choice up or down, round the ends; the first or the last where nothing was chosen. */
const stepped = (chosen: number | undefined, step: number, count: number): number =>
  chosen === undefined ? (step > 0 ? 0 : count - 1) : (chosen + step + count) % count;

/** What makes a text field the entry line, for keyboards and readers. */
const lineField = (list: string, chosen: number | undefined, isOpen: boolean) => ({
  id: `${list}-line`,
  role: 'combobox',
  'aria-expanded': isOpen,
  'aria-controls': list,
  'aria-activedescendant': chosen === undefined ? undefined : `${list}-${chosen}`,
  'aria-autocomplete': 'list' as const,
  autoComplete: 'off',
  spellCheck: false,
  dir: 'auto',
  maxLength: 10_000,
  placeholder: 'unscrew 3 ph000 speaker bracket',
});

interface OfferedProps {
  readonly list: string;
  readonly offered: readonly Candidate[];
  readonly chosen: number | undefined;
  readonly onTake: (index: number) => void;
}

/** What the line may mean. The focus stays in the line, as in every combobox; arrows move the choice. */
const Offered = ({ list, offered, chosen, onTake }: OfferedProps) => (
  <div id={list} role="listbox" aria-label="What it may mean" tabIndex={-1} hidden={offered.length === 0}>
    {offered.map(({ thing }, index) => (
      // biome-ignore lint/a11y/useKeyWithClickEvents: keys are taken in the line
      <div
        key={`${thing.kind} ${thing.key}`}
        id={`${list}-${index}`}
        role="option"
        tabIndex={-1}
        aria-selected={index === chosen}
        onMouseDown={(event) => event.preventDefault()}
        onClick={() => onTake(index)}
      >
        {thing.name}{' '}
        <span>
          {thing.kind}
          {thing.fastener && thing.fastener.count > 1 ? `, ${thing.fastener.count}` : ''}
        </span>
      </div>
    ))}
  </div>
);

const saidOf = ({ order, understood, needsChoice, newTarget, left, cut, naming }: LineReading): string => {
  if (order)
    return [`${order.kind}: ${order.text}`, left === '' ? '' : `kept as a note: ${left}`].filter(Boolean).join(' — ');
  const parts = [
    understood.join(' · '),
    naming.outcome === 'partial' ? `${naming.did ?? '?'} came, the rest is still in` : '',
    needsChoice ? 'several fit: choose with the arrows' : '',
    newTarget ? `"${newTarget.name}" is new and will appear` : '',
    left === '' ? '' : `kept as a note: ${left}`,
    cut === 0 ? '' : `too long: the last ${cut} characters are not kept`,
  ];
  return parts.filter(Boolean).join(' — ');
};

/** Does what the line says: an order at once; an action names the mark, or is entered now. */
const enter = ({ acts, things, hold, retake }: Bench, reading: LineReading, chosen: number | undefined): void => {
  const { order, newTarget } = reading;
  if (!order) {
    const thing = chosen === undefined ? undefined : reading.candidates[chosen]?.thing;
    acts.name(thing ? reading.namingFor(thing) : reading.naming, undefined, newTarget);
    return;
  }
  if (order.kind === 'goal') goFor(acts, things, order.text);
  else if (order.kind === 'retake' || (order.kind === 'resume' && !hold && retake))
    acts.retakeOrReturn(order.text === '' || order.kind === 'resume' ? undefined : retakeOf(reading));
  else if ((order.kind === 'resume') === (hold !== undefined)) acts.holdOrResume(order.text || 'not said');
  if (reading.naming.note !== undefined) acts.note(reading.naming.note);
};

/** What is done again: what the words fit best, and the words themselves. */
const retakeOf = ({ candidates, order }: LineReading) => {
  const best = Math.max(0, ...candidates.map(({ fit }) => fit));
  return {
    things: candidates.filter(({ fit }) => fit === best).map(({ thing }) => thing.key),
    note: order?.text ?? '',
  };
};

const goFor = (acts: Bench['acts'], things: Bench['things'], text: string): void => {
  const words = text.toLowerCase();
  const part = things.find(
    ({ kind, key, name }) => kind === 'part' && (key === words || name.toLowerCase().includes(words)),
  );
  if (text === '' || part) acts.setGoal(text === '' ? undefined : part?.key);
  else {
    const key = keyForName(text, (taken) => things.some((thing) => thing.key === taken));
    acts.setGoal(key, { key, name: text });
  }
};
