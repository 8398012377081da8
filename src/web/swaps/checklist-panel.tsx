import { useState } from 'react';
import { USUAL_CHECKS_SOURCE } from '#record/device/function-checks';
import { keyForName } from '../bench/entry-line/key-for-name.ts';
import { Button } from '../look/button.tsx';
import { TextField } from '../look/text-field.tsx';
import { shownChecks } from './bench-operations.ts';
import { ChoiceRow } from './choice-row.tsx';
import type { FitFormProps } from './fit-form.tsx';
import { partName } from './recorded-runs.ts';
import type { CheckResult } from './run-draft.ts';
import styles from './run-sheet.module.css';
import { CHECK_WORDS } from './swap-words.ts';

const RESULTS = (Object.keys(CHECK_WORDS) as CheckResult[]).map((value) => ({ value, label: CHECK_WORDS[value] }));

/** The function list of a part, gone through one after the other; functions can be added and left out. */
export const ChecklistPanel = ({ document, fit, onFit }: FitFormProps) => {
  const checks = shownChecks(document, fit);
  const [isEditing, setEditing] = useState(false);
  const isListed = document.swapBench?.parts?.[fit.part]?.checks !== undefined;
  const leaveOut = (key: string) => {
    const { [key]: _, ...rest } = fit.checks;
    onFit({
      checks: rest,
      leftOutChecks: [...fit.leftOutChecks, key],
      addedChecks: fit.addedChecks.filter((added) => added.key !== key),
    });
  };
  return (
    <fieldset className={styles.group}>
      <legend>Functions gone through</legend>
      <p className={styles.hint}>
        {isListed ? 'The list of this record.' : `The usual list of its role: ${USUAL_CHECKS_SOURCE}.`}
      </p>
      {checks.map(({ id: key, name, how }) => (
        <div key={key} className={styles.check}>
          <ChoiceRow<CheckResult>
            legend={name}
            hint={how}
            value={fit.checks[key] ?? ''}
            options={RESULTS}
            onChange={(result) => onFit({ checks: { ...fit.checks, [key]: result } })}
          />
          {isEditing && (
            <Button label={`Leave out ${name}`} onPress={() => leaveOut(key)}>
              Leave out
            </Button>
          )}
        </div>
      ))}
      <div className={styles.acts}>
        <Button onPress={() => onFit({ checks: Object.fromEntries(checks.map(({ id }) => [id, 'pass'])) })}>
          All of them pass
        </Button>
        <Button pressed={isEditing} onPress={() => setEditing(!isEditing)}>
          Change the list
        </Button>
      </div>
      {isEditing && (
        <AddCheck
          part={partName(document, fit.part)}
          isTaken={(key) => checks.some(({ id }) => id === key)}
          onAdd={(added) => onFit({ addedChecks: [...fit.addedChecks, added] })}
        />
      )}
    </fieldset>
  );
};

interface AddCheckProps {
  readonly part: string;
  readonly isTaken: (key: string) => boolean;
  readonly onAdd: (added: { readonly key: string; readonly name: string }) => void;
}

const AddCheck = ({ part, isTaken, onAdd }: AddCheckProps) => {
  const [name, setName] = useState('');
  const add = () => {
    onAdd({ key: keyForName(name.trim(), isTaken), name: name.trim() });
    setName('');
  };
  return (
    <div className={styles.add}>
      <TextField
        label={`A further function of ${part}`}
        value={name}
        most={10_000}
        onChange={setName}
        hint="The list is kept for the next run."
      />
      <Button disabled={name.trim() === ''} onPress={add}>
        Add it
      </Button>
    </div>
  );
};
