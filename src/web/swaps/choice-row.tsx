import { useId } from 'react';
import styles from './run-sheet.module.css';

interface ChoiceRowProps<Value extends string> {
  readonly legend: string;
  /** What stands small beside the legend. */
  readonly hint?: string | undefined;
  readonly value: Value | '';
  readonly options: readonly { readonly value: Value; readonly label: string }[];
  readonly onChange: (value: Value) => void;
  /** One under the other, for labels that are sentences. */
  readonly stacked?: boolean;
  readonly fault?: string | undefined;
}

/** A choice of one, each a large tile: arrow keys go through them, a gloved finger finds them. */
export const ChoiceRow = <Value extends string>(props: ChoiceRowProps<Value>) => {
  const { legend, hint, value, options, onChange, stacked = false, fault } = props;
  const name = useId();
  return (
    <fieldset className={stacked ? `${styles.choice} ${styles.stacked}` : styles.choice}>
      <legend>
        <span dir="auto">{legend}</span>
        {hint !== undefined && <span className={styles.hint}> {hint}</span>}
      </legend>
      <div className={styles.tiles}>
        {options.map((option) => (
          <label key={option.value} className={styles.tile}>
            <input
              type="radio"
              name={name}
              checked={option.value === value}
              aria-describedby={fault === undefined ? undefined : `${name}-fault`}
              onChange={() => onChange(option.value)}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
      {fault !== undefined && (
        <p id={`${name}-fault`} className={styles.fault}>
          {fault}
        </p>
      )}
    </fieldset>
  );
};

const SAID = [
  { value: 'yes', label: 'yes' },
  { value: 'no', label: 'no' },
] as const;

/** Yes or no; neither is pressed until somebody says. */
export const YesNo = (props: Omit<ChoiceRowProps<'yes' | 'no'>, 'options'>) => <ChoiceRow {...props} options={SAID} />;
