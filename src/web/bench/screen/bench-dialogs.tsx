import { useId, useState } from 'react';
import { Button } from '../../look/button.tsx';
import { SelectField } from '../../look/select-field.tsx';
import { SheetDialog } from '../../look/sheet-dialog.tsx';
import { TextField } from '../../look/text-field.tsx';
import { clockFace } from '../clock/session-clock.ts';
import type { LogLine } from '../live/log-lines.ts';
import type { CaughtBetween } from './bench-acts.ts';
import styles from './bench-session.module.css';
import type { BenchSheet } from './bench-session.tsx';
import { IncidentBody } from './incident-body.tsx';
import type { KeyMap } from './key-map.ts';
import { KeysBody } from './keys-body.tsx';
import type { Bench } from './use-bench.ts';

interface BenchDialogsProps {
  readonly bench: Bench;
  readonly sheet: Exclude<BenchSheet, 'card'>;
  /** The record of the incident that the sheet is open for. */
  readonly incident: string | undefined;
  readonly keys: KeyMap;
  readonly setKeys: (keys: KeyMap) => void;
  readonly onClose: () => void;
}

const TITLES: Readonly<Record<BenchDialogsProps['sheet'], string>> = {
  goal: 'Going for what?',
  hold: 'Why the hold?',
  damage: 'Damage',
  overlap: 'Heat, soak or cure begins',
  'catch-up': 'Catch up',
  incident: 'Incident',
  keys: 'Keys and pedals',
};

/** The sheets that are laid over the bench. */
export const BenchDialogs = (props: BenchDialogsProps) => {
  const { sheet, onClose } = props;
  const Body = {
    goal: Goal,
    hold: Hold,
    damage: Damage,
    overlap: Overlap,
    'catch-up': CatchUp,
    incident: IncidentBody,
    keys: KeysBody,
  }[sheet];
  return (
    <SheetDialog title={TITLES[sheet]} isOpen onClose={onClose}>
      <Body {...props} />
    </SheetDialog>
  );
};

const Goal = ({ bench, onClose }: BenchDialogsProps) => {
  const [filter, setFilter] = useState('');
  const parts = bench.things.filter(
    ({ kind, name, key }) =>
      kind === 'part' && !bench.readout.off.has(key) && name.toLowerCase().includes(filter.toLowerCase()),
  );
  const choose = (goal: string | undefined) => {
    bench.acts.setGoal(goal);
    onClose();
  };
  return (
    <>
      <TextField label="Part" value={filter} onChange={setFilter} autoFocus />
      <div className={styles.choices}>
        <Button onPress={() => choose(undefined)}>none: it binds everything after</Button>
        {parts.slice(0, 30).map(({ key, name }) => (
          <Button key={key} onPress={() => choose(key)}>
            {name}
          </Button>
        ))}
      </div>
    </>
  );
};

const REASONS = ['camera', 'photographs', 'tool fetched', 'question', 'break', 'waiting for heat'];

const Hold = ({ bench, onClose }: BenchDialogsProps) => {
  const [reason, setReason] = useState('');
  const hold = (why: string) => {
    bench.acts.holdOrResume(why.trim() || 'not said');
    onClose();
  };
  return (
    <>
      <div className={styles.choices}>
        {REASONS.map((why) => (
          <Button key={why} onPress={() => hold(why)}>
            {why}
          </Button>
        ))}
      </div>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          hold(reason);
        }}
      >
        <TextField label="Another reason" value={reason} onChange={setReason} autoFocus />
        <Button submit main>
          Hold
        </Button>
      </form>
    </>
  );
};

const SEVERITIES = [
  { value: 'cosmetic', label: 'cosmetic' },
  { value: 'function', label: 'a function' },
  { value: 'safety', label: 'safety' },
] as const;

const Damage = ({ bench, onClose }: BenchDialogsProps) => {
  const [what, setWhat] = useState('');
  const [severity, setSeverity] = useState<'cosmetic' | 'function' | 'safety'>('function');
  const [subject, setSubject] = useState('');
  const [after, setAfter] = useState('');
  const things = bench.things.filter(({ kind }) => kind !== 'tool');
  const log = bench.readout.log.filter(({ state }) => state !== 'hold' && state !== 'retake');
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        const more = { ...(subject === '' ? {} : { subject }), ...(after === '' ? {} : { after }) };
        bench.acts.damage(what.trim() || 'not said', severity, more);
        onClose();
      }}
    >
      <TextField label="What" value={what} onChange={setWhat} autoFocus />
      <SelectField label="How bad" value={severity} options={SEVERITIES} onChange={setSeverity} />
      <SelectField
        label="To what"
        value={subject}
        options={[{ value: '', label: 'not said' }, ...things.map(({ key, name }) => ({ value: key, label: name }))]}
        onChange={setSubject}
      />
      <SelectField
        label="Last seen whole at"
        value={after}
        options={[{ value: '', label: 'not known' }, ...log.map(({ key, words }) => ({ value: key, label: words }))]}
        onChange={setAfter}
      />
      <p>Found at the last entry. Between the two it must have happened; the ruling comes later.</p>
      <Button submit main>
        Record the damage
      </Button>
    </form>
  );
};

const Overlap = ({ bench, onClose }: BenchDialogsProps) => {
  const [place, setPlace] = useState('');
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        bench.acts.startOverlap(place.trim() || 'heat');
        onClose();
      }}
    >
      <TextField label="What and where" hint="heat, rear edge" value={place} onChange={setPlace} autoFocus />
      <p>It runs beside other work until it is ended on the right.</p>
      <Button submit main>
        Begin
      </Button>
    </form>
  );
};

/** Entries to choose from, with their times: marks without a name are told apart by nothing else. */
const choices = (log: readonly LogLine[]) =>
  log.map(({ key, at, words }) => ({ value: key, label: `${clockFace(at)} ${words}` }));

/** Enters what the lines say, and what they name for the first time. */
const enterLines = ({ acts, read }: Bench, between: CaughtBetween, lines: readonly string[]): void => {
  const readings = lines.map(read);
  const namings = readings.map(({ naming }) => naming);
  if (namings.length > 0)
    acts.catchUp(
      between,
      namings,
      readings.flatMap(({ newTarget }) => newTarget ?? []),
    );
};

/** What was done while nobody marked: a line each, sharing the time between two entries, or from one until now. */
const CatchUp = ({ bench, onClose }: BenchDialogsProps) => {
  const log = bench.readout.log.filter(({ state }) => state !== 'hold' && state !== 'retake').toReversed();
  const [from, setFrom] = useState(log[0]?.key ?? '');
  const [until, setUntil] = useState('');
  const [lines, setLines] = useState('');
  const name = useId();
  const timeOf = (entry: string) => log.find(({ key }) => key === entry)?.at;
  const read = lines.split('\n').filter((line) => line.trim() !== '');
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        const between = { from: timeOf(from) ?? 0, until: until === '' ? undefined : until };
        enterLines(bench, between, read);
        onClose();
      }}
    >
      <SelectField
        label="Since"
        value={from}
        options={[{ value: '', label: 'the start' }, ...choices(log)]}
        onChange={(since) => {
          setFrom(since);
          if ((timeOf(until) ?? Number.POSITIVE_INFINITY) <= (timeOf(since) ?? 0)) setUntil('');
        }}
      />
      <SelectField
        label="Until"
        value={until}
        options={[{ value: '', label: 'now' }, ...choices(log.filter(({ at }) => at > (timeOf(from) ?? 0)))]}
        onChange={setUntil}
      />
      <label htmlFor={name}>A line for each action, in their order</label>
      <textarea
        id={name}
        className={styles.lineField}
        rows={6}
        dir="auto"
        maxLength={10_000}
        value={lines}
        onChange={(event) => setLines(event.target.value)}
      />
      <ul className={styles.binding} aria-live="polite">
        {read.map((line, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a line has nothing else, and its place is what it is
          <li key={index} dir="auto">
            {bench.read(line).understood.join(' · ') || `a note: ${line}`}
            {bench.read(line).needsChoice ? ' — several fit: entered without a target' : ''}
          </li>
        ))}
      </ul>
      <p>They share the time between; none of them gives a spread.</p>
      <Button submit main>
        Enter them
      </Button>
    </form>
  );
};
