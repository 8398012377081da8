import { useState } from 'react';
import { Button } from '../../look/button.tsx';
import { TextField } from '../../look/text-field.tsx';
import styles from './bench-session.module.css';
import type { Bench } from './use-bench.ts';

interface IncidentBodyProps {
  readonly bench: Bench;
  /** Under which key the incident is recorded. */
  readonly incident: string | undefined;
  readonly onClose: () => void;
}

/** The quarantine rule, at once: the clock stands and the record is open already, with what was said of it. */
export const IncidentBody = ({ bench, incident = '', onClose }: IncidentBodyProps) => {
  const [more, setMore] = useState('');
  const notes = bench.damageNotes(incident);
  return (
    <>
      <p>
        <strong>The clock stands, and the incident is recorded.</strong>
      </p>
      <p>
        A cell that hisses, bulges, smokes or smells: step back, warn others, air the room. Move it only if that is safe
        and you are trained to; dry sand in a container that cannot burn, outdoors, for at least 6 hours. Call the fire
        service. A cooled cell may still fail later: keep it apart.
      </p>
      <p className={styles.soft}>
        Tennessee environment department, read; ATF fire laboratory bulletin, October 2024, secondary. Local rules and
        licensed practice come first.
      </p>
      {notes.length > 0 && (
        <ul className={styles.notes} aria-label="What was noted">
          {notes.map((note, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines are only ever added at the end
            <li key={index} dir="auto">
              {note}
            </li>
          ))}
        </ul>
      )}
      <form
        className={styles.more}
        onSubmit={(event) => {
          event.preventDefault();
          bench.acts.incidentNote(incident, more);
          setMore('');
        }}
      >
        <TextField label="What happened" value={more} most={2000} onChange={setMore} />
        <Button submit>Add to the record</Button>
      </form>
      <Button main onPress={onClose}>
        Back to the bench, clock still standing
      </Button>
    </>
  );
};
