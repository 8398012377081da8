import { useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { INTERPRETATION_TABLE } from '#schemes/eu-2023-1669/interpretations';
import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import { askLaboratory, type CurrentLaboratory } from '../laboratory/current-laboratory.ts';
import { keepLaboratory } from '../laboratory/laboratory-client.ts';
import { keptAuthor } from '../ledger/author.ts';
import { wallTime } from '../ledger/change-key.ts';
import { Button } from '../look/button.tsx';
import type { ReadingChoice } from './reading-patch.ts';
import styles from './readings-panel.module.css';

interface LaboratoryChoiceProps {
  readonly reading: string;
  /** What the assessment chooses itself. */
  readonly chosen: ReadingChoice | undefined;
  readonly current: CurrentLaboratory;
  /** How the record names its laboratory. */
  readonly named: Assessment['laboratory'];
  /** Takes the assessment's own choice back. */
  readonly onForget: () => void;
}

/** For whom does a reading hold: this assessment alone, or the laboratory and every assessment that chooses none? */
export const LaboratoryChoice = ({ reading, chosen, current, named, onForget }: LaboratoryChoiceProps) => {
  const [refused, setRefused] = useState<string>();
  const [isKeeping, setKeeping] = useState(false);
  if (current.state !== 'known') return null;
  const { laboratory, text } = current;
  const held = laboratory?.interpretations[reading];
  if (!chosen && !held) return null;
  const give = async () => {
    if (!chosen) return;
    setKeeping(true);
    try {
      await keepReading({ chosen, text, name: laboratory?.name ?? named ?? 'Our laboratory' });
      setRefused(undefined);
      await askLaboratory();
      onForget();
    } catch (error) {
      setRefused(error instanceof Error ? error.message : String(error));
    }
    setKeeping(false);
  };
  const isSame = chosen !== undefined && held?.reading === chosen.value;
  return (
    <div className={styles.whose}>
      {laboratory && held && <p>{heldWords({ reading, laboratory, isOverruled: chosen !== undefined })}</p>}
      {chosen && (
        <p className={styles.choices}>
          <Button onPress={onForget}>{held ? 'Follow the laboratory' : 'Follow our default'}</Button>
          {!isSame && (
            <Button onPress={() => void give()} disabled={chosen.reason === '' || isKeeping}>
              Read it so in the whole laboratory
            </Button>
          )}
          {!isSame && chosen.reason === '' && <span className={styles.soft}>The laboratory needs a reason first.</span>}
        </p>
      )}
      {refused !== undefined && <p role="alert">Not kept: {refused}</p>}
    </div>
  );
};

interface Kept {
  readonly chosen: ReadingChoice;
  readonly text: string | undefined;
  readonly name: string;
}

/** The writer of documents is loaded with the first reading that is given to the laboratory. */
const keepReading = async ({ chosen, text, name }: Kept): Promise<void> => {
  const { textWithReading } = await import('../laboratory/text-with-reading.ts');
  const [at, by] = [wallTime(), keptAuthor()];
  const { id: key, value, reason } = chosen;
  const next = textWithReading(text, { id: key, reading: value, reason, by, on: at.slice(0, 10) }, name);
  await keepLaboratory({ text: next, author: by, at });
};

interface Held {
  readonly reading: string;
  readonly laboratory: Laboratory;
  readonly isOverruled: boolean;
}

const heldWords = ({ reading, laboratory, isOverruled }: Held): string => {
  const held = laboratory.interpretations[reading];
  if (!held) return '';
  const row = INTERPRETATION_TABLE.find(({ id: key }) => key === reading);
  const means = row?.meanings[held.reading] ?? held.reading.replaceAll('-', ' ');
  const who = `${laboratory.name}, edition ${laboratory.edition}`;
  return isOverruled
    ? `Chosen for this assessment. The laboratory (${who}) reads: ${means} (${held.by}, ${held.on}: ${held.reason}).`
    : `As the laboratory reads it (${who}; ${held.by}, ${held.on}): ${held.reason}`;
};
