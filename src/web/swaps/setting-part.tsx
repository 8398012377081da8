import type { Assessment } from '#record/schema/assessment';
import { wallTime } from '../ledger/change-key.ts';
import { Button } from '../look/button.tsx';
import { TextField } from '../look/text-field.tsx';
import { YesNo } from './choice-row.tsx';
import { UNCUT } from './fit-form.tsx';
import type { RunDraft } from './run-draft.ts';
import type { RunFault } from './run-faults.ts';
import styles from './run-sheet.module.css';

interface SettingProps {
  readonly document: Assessment;
  readonly run: RunDraft;
  readonly faults: readonly RunFault[];
  readonly onRun: (some: Partial<RunDraft>) => void;
}

/** How the specimen stood when it was started: what an effect can come from that is no refusal. */
export const SettingPart = ({ document, run, faults, onRun }: SettingProps) => {
  const fault = (field: string) => faults.find((one) => one.fit === undefined && one.field === field)?.words;
  const { soak } = document.swapBench ?? {};
  return (
    <section aria-labelledby="at-the-start">
      <h3 id="at-the-start">At the start</h3>
      <div className={styles.row}>
        <YesNo legend="Closed up" value={run.closed} onChange={(closed) => onRun({ closed })} />
        <YesNo
          legend="Grounded"
          hint="shields and springs in place"
          value={run.grounded}
          onChange={(grounded) => onRun({ grounded })}
        />
        <YesNo legend="Network on" value={run.network} onChange={(network) => onRun({ network })} />
        <YesNo
          legend="Soak and reset kept to"
          hint={soak === undefined ? undefined : `laid down: ${typeof soak === 'number' ? `${soak} s` : soak}`}
          value={run.settled}
          onChange={(settled) => onRun({ settled })}
        />
      </div>
      <div className={styles.three}>
        <TextField
          label="Charge"
          value={run.charge}
          onChange={(charge) => onRun({ charge })}
          fault={fault('charge')}
          hint="such as 30 %"
        />
        <TextField
          label="Account signed in"
          value={run.account}
          most={UNCUT}
          onChange={(account) => onRun({ account })}
          fault={fault('account')}
        />
        <TextField
          label="Waited before the list"
          value={run.soak}
          onChange={(waited) => onRun({ soak: waited })}
          fault={fault('soak')}
          hint="such as 2 min"
        />
      </div>
      <div className={styles.acts}>
        <Button onPress={() => onRun(startMarked(document, run))}>
          {run.on === '' ? 'It is started: mark the time' : 'Mark the start anew'}
        </Button>
        <p className={styles.hint} role="status">
          {run.on === ''
            ? 'Not marked, the run gets the time at which it is saved.'
            : `Started ${momentWords(run.on)}.`}
        </p>
      </div>
    </section>
  );
};

/** The start is now; in a session, so many seconds after its own start. */
const startMarked = ({ sessions }: Assessment, run: RunDraft): Partial<RunDraft> => {
  const on = wallTime();
  const start = sessions?.[run.session]?.start;
  if (start === undefined) return { on };
  const seconds = (Date.parse(on) - Date.parse(start)) / 1000;
  return seconds < 0 ? { on } : { on, at: seconds.toFixed(1) };
};

const momentWords = (moment: string): string => `${moment.slice(0, 10)} at ${moment.slice(11, 19)}`;
