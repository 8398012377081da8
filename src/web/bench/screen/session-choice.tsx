import { type FormEvent, useState } from 'react';
import type { Assessment, Session } from '#record/schema/assessment';
import { keptAuthor } from '../../ledger/author.ts';
import { wallTime } from '../../ledger/change-key.ts';
import type { OpenAssessment } from '../../ledger/open-assessment.ts';
import { Button } from '../../look/button.tsx';
import { SelectField } from '../../look/select-field.tsx';
import { TextField } from '../../look/text-field.tsx';
import { benchKey } from '../commands/bench-key.ts';
import { startSession, takeIn } from '../commands/bench-patches.ts';
import styles from './session-choice.module.css';

interface SessionChoiceProps {
  readonly open: OpenAssessment;
  readonly document: Assessment;
  readonly onChoose: (session: string) => void;
}

/** Which session? One to go on with, or a new one. */
export const SessionChoice = ({ open, document, onChoose }: SessionChoiceProps) => {
  const sessions = Object.entries(document.sessions ?? {}).sort(
    ([, a], [, b]) => Date.parse(b.start) - Date.parse(a.start),
  );
  return (
    <div className={styles.choice}>
      <section aria-labelledby="begin-session">
        <h2 id="begin-session">Begin a session</h2>
        <BeginForm open={open} document={document} onChoose={onChoose} />
      </section>
      <section aria-labelledby="go-on">
        <h2 id="go-on">Go on with a session</h2>
        {sessions.length === 0 && <p>There is none yet.</p>}
        <ul className={styles.list}>
          {sessions.map(([key, { kind, specimen, start, entries }]) => (
            <li key={key}>
              <button type="button" onClick={() => onChoose(key)}>
                <strong>
                  {kind}, {start.slice(0, 16).replace('T', ' ')}
                </strong>
                <span>
                  {document.specimens?.[specimen]?.name ?? specimen} · {Object.keys(entries).length} entries · {key}
                </span>
              </button>
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
};

const KINDS: readonly { readonly value: Session['kind']; readonly label: string }[] = [
  { value: 'measured', label: 'measured: it gives times and odds' },
  { value: 'exploration', label: 'exploration: it gives neither' },
  { value: 'retake', label: 'retake' },
  { value: 'swap', label: 'swap' },
  { value: 'reassembly', label: 'reassembly' },
];
const NEW = '+';
type Lock = 'none' | 'own-account' | 'locked' | 'unknown';
const LOCKS: readonly { readonly value: Lock; readonly label: string }[] = [
  { value: 'unknown', label: 'not known' },
  { value: 'none', label: 'none' },
  { value: 'own-account', label: 'our own account' },
  { value: 'locked', label: 'locked' },
];

const EMPTY = {
  kind: 'measured' as Session['kind'],
  specimen: '',
  left: '',
  operator: '',
  obtained: '',
  sealed: false,
  revision: '',
  firmware: '',
  lock: 'unknown' as Lock,
  functions: '',
  mass: '',
  charge: '',
};

const BeginForm = ({ open, document, onChoose }: SessionChoiceProps) => {
  const specimens = Object.entries(document.specimens ?? {});
  const [form, setForm] = useState({ ...EMPTY, specimen: specimens[0]?.[0] ?? NEW, operator: keptAuthor() });
  const set = (some: Partial<typeof form>) => setForm({ ...form, ...some });
  const begin = (event: FormEvent) => {
    event.preventDefault();
    const { session, patch } = beginning(document, form);
    void open.change(patch, `session ${session} begun`);
    onChoose(session);
  };
  const left = Object.entries(document.sessions ?? {}).filter(([, { specimen }]) => specimen === form.specimen);
  return (
    <form className={styles.form} onSubmit={begin} noValidate>
      <SelectField label="Kind" value={form.kind} options={KINDS} onChange={(kind) => set({ kind })} />
      <SelectField
        label="Specimen"
        value={form.specimen}
        options={[
          ...specimens.map(([value, { name }]) => ({ value, label: name ?? value })),
          { value: NEW, label: 'a new one, to be taken in' },
        ]}
        onChange={(specimen) => set({ specimen, left: '' })}
      />
      {left.length > 0 && (
        <SelectField
          label="It is"
          value={form.left}
          options={[
            { value: '', label: 'complete' },
            ...left.map(([value]) => ({ value, label: `as session ${value} left it` })),
          ]}
          onChange={(chosen) => set({ left: chosen })}
        />
      )}
      {form.specimen === NEW && <Intake form={form} set={set} />}
      <TextField
        label="Operator, initials"
        value={form.operator}
        most={200}
        onChange={(operator) => set({ operator })}
      />
      <Button submit main>
        Begin; the clock starts
      </Button>
    </form>
  );
};

type Form = typeof EMPTY;

/** How the unit came, before it is opened. What stays empty is not known. */
const Intake = ({ form, set }: { readonly form: Form; readonly set: (some: Partial<Form>) => void }) => (
  <fieldset className={styles.intake}>
    <legend>As received</legend>
    <TextField label="How obtained" value={form.obtained} onChange={(obtained) => set({ obtained })} />
    <label className={styles.check}>
      <input type="checkbox" checked={form.sealed} onChange={(event) => set({ sealed: event.target.checked })} /> sealed
    </label>
    <TextField label="Revision" value={form.revision} onChange={(revision) => set({ revision })} />
    <TextField label="Firmware" value={form.firmware} onChange={(firmware) => set({ firmware })} />
    <SelectField label="Account lock" value={form.lock} options={LOCKS} onChange={(lock) => set({ lock })} />
    <TextField
      label="Functions checked before opening"
      value={form.functions}
      onChange={(functions) => set({ functions })}
    />
    <TextField
      label="Mass before opening"
      hint="182.4 ± 0.1 g"
      value={form.mass}
      most={120}
      onChange={(mass) => set({ mass })}
    />
    <TextField
      label="Charge of the cell"
      hint="About 25 to 30 % before opening, not zero"
      value={form.charge}
      most={120}
      onChange={(charge) => set({ charge })}
    />
  </fieldset>
);

/** The patch that begins a session, with the specimen where it is new. */
const beginning = (document: Assessment, form: Form) => {
  const start = wallTime();
  const seconds = Date.parse(start) / 1000;
  const session = benchKey('s', seconds, Math.random);
  const specimen = form.specimen === NEW ? benchKey('u', seconds, Math.random) : form.specimen;
  const some = (text: string, field: string) => (text.trim() === '' ? {} : { [field]: text.trim() });
  const record: Session = {
    kind: form.kind,
    specimen,
    start,
    startsAs: form.left === '' ? 'complete' : { leftBy: form.left },
    blind: true,
    entries: {},
    ...some(form.operator, 'operator'),
    ...some(form.firmware, 'firmware'),
    ...some(form.charge, 'charge'),
  };
  const received = {
    name: `Specimen ${String.fromCharCode(65 + (Object.keys(document.specimens ?? {}).length % 26))}`,
    ...some(form.obtained, 'obtained'),
    ...(form.sealed ? { sealed: true } : {}),
    ...some(form.revision, 'revision'),
    ...(form.firmware.trim() === '' ? {} : { firmware: { received: { version: form.firmware.trim() } } }),
    accountLock: form.lock,
    ...some(form.functions, 'condition'),
    ...some(form.mass, 'massBeforeOpening'),
    ...some(form.charge, 'charge'),
  };
  const intake = form.specimen === NEW ? takeIn(document, specimen, received) : [];
  return { session, patch: [...intake, ...startSession(document, session, record)] };
};
