import type { Assessment } from '#record/schema/assessment';
import { Button } from '../look/button.tsx';
import { SelectField } from '../look/select-field.tsx';
import { TextField } from '../look/text-field.tsx';
import type { RunDraft } from './run-draft.ts';
import type { RunFault } from './run-faults.ts';
import styles from './run-sheet.module.css';

interface EvidenceProps {
  readonly document: Assessment;
  readonly run: RunDraft;
  readonly faults: readonly RunFault[];
  readonly onRun: (some: Partial<RunDraft>) => void;
}

/** Where the run can be seen again: the session with its time, and what lies among the evidence. */
export const EvidencePart = ({ document, run, faults, onRun }: EvidenceProps) => {
  const fault = (field: string) => faults.find((one) => one.fit === undefined && one.field === field)?.words;
  const sessions = Object.entries(document.sessions ?? {})
    .filter(([, { specimen }]) => specimen === run.host)
    .sort(([, a], [, b]) => Date.parse(b.start) - Date.parse(a.start));
  return (
    <section aria-labelledby="evidence-mark">
      <h3 id="evidence-mark">Evidence</h3>
      <div className={styles.three}>
        <SelectField
          label="Session it is filmed in"
          value={run.session}
          options={[
            { value: '', label: 'none' },
            ...sessions.map(([value, { kind, start }]) => ({
              value,
              label: `${kind}, ${start.slice(0, 16).replace('T', ' ')} (${value})`,
            })),
          ]}
          onChange={(session) => onRun({ session, at: session === '' ? '' : run.at })}
        />
        {run.session !== '' && (
          <TextField
            label="Seconds in the session"
            value={run.at}
            onChange={(at) => onRun({ at })}
            fault={fault('at')}
          />
        )}
        <TextField
          label="Operator, initials"
          value={run.operator}
          most={200}
          onChange={(operator) => onRun({ operator })}
          fault={fault('operator')}
        />
      </div>
      <Shown document={document} run={run} onRun={onRun} />
    </section>
  );
};

const Shown = ({ document: { evidence = {} }, run, onRun }: Omit<EvidenceProps, 'faults'>) => {
  const free = Object.entries(evidence).filter(([key]) => !run.evidence.includes(key));
  return (
    <>
      {run.evidence.length > 0 && (
        <ul className={styles.rows}>
          {run.evidence.map((key) => (
            <li key={key}>
              <span dir="auto">
                {key}
                {evidence[key]?.says === undefined ? '' : `: ${evidence[key].says}`}
              </span>
              <Button
                label={`Leave out ${key}`}
                onPress={() => onRun({ evidence: run.evidence.filter((other) => other !== key) })}
              >
                Leave out
              </Button>
            </li>
          ))}
        </ul>
      )}
      {free.length > 0 && (
        <SelectField
          label="Among the evidence"
          value=""
          options={[
            { value: '', label: 'choose what shows it' },
            ...free.map(([value, { says }]) => ({ value, label: says === undefined ? value : `${value}: ${says}` })),
          ]}
          onChange={(key) => key !== '' && onRun({ evidence: [...run.evidence, key] })}
        />
      )}
    </>
  );
};
