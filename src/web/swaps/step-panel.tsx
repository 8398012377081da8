import { TextField } from '../look/text-field.tsx';
import { ChoiceRow, YesNo } from './choice-row.tsx';
import { type FitFormProps, faultOf, Tick } from './fit-form.tsx';
import type { PairingDraft, StepDraft } from './run-draft.ts';
import { isForeign } from './run-draft.ts';
import styles from './run-sheet.module.css';

const REMOTE: readonly { readonly value: Exclude<PairingDraft['remote'], ''>; readonly label: string }[] = [
  { value: 'none', label: 'done on the device alone' },
  { value: 'notification', label: 'notified to the maker' },
  { value: 'authorisation', label: 'authorised by the maker' },
];
const BY: readonly { readonly value: Exclude<StepDraft['by'], ''>; readonly label: string }[] = [
  { value: 'owner', label: 'the owner' },
  { value: 'professional', label: 'a professional' },
  { value: 'makers-network', label: "the maker's network alone" },
];

/** The step taken before this run: what it was, who may take it, what it asks for. Only where the stage is one of a step. */
export const StepPanel = (props: FitFormProps) => {
  const { fit, onFit } = props;
  const fault = faultOf(props);
  if (fit.arm === 'authorised')
    return (
      <fieldset className={styles.group}>
        <legend>The step that makes the part known</legend>
        <ChoiceRow
          legend="How"
          value={fit.pairing.remote}
          options={REMOTE}
          onChange={(remote) => onFit({ pairing: { ...fit.pairing, remote } })}
        />
        <Terms
          step={fit.pairing}
          fault={fault('cost')}
          onStep={(some) => onFit({ pairing: { ...fit.pairing, ...some } })}
        />
      </fieldset>
    );
  if (fit.arm === 'calibrated')
    return (
      <fieldset className={styles.group}>
        <legend>The calibration</legend>
        <Terms
          step={fit.calibration}
          fault={fault('calibration-cost')}
          onStep={(some) => onFit({ calibration: { ...fit.calibration, ...some } })}
        />
      </fieldset>
    );
  if (!isForeign(fit) || fit.arm === 'cross' || fit.arm === 'identity-moved') return null;
  return (
    <div className={styles.acts}>
      <Tick
        label="Calibrated since it was fitted"
        checked={fit.calibrated}
        onChange={(calibrated) => onFit({ calibrated })}
      />
      <Tick
        label="The own identity sits on it"
        checked={fit.identityMoved}
        onChange={(identityMoved) => onFit({ identityMoved })}
      />
    </div>
  );
};

interface TermsProps {
  readonly step: StepDraft;
  readonly fault: string | undefined;
  readonly onStep: (some: Partial<StepDraft>) => void;
}

const Terms = ({ step, fault, onStep }: TermsProps) => (
  <>
    <ChoiceRow legend="Who may take it" value={step.by} options={BY} onChange={(by) => onStep({ by })} />
    <div className={styles.row}>
      <YesNo legend="Needs a network" value={step.network} onChange={(network) => onStep({ network })} />
      <YesNo
        legend="Needs an account with the maker"
        value={step.account}
        onChange={(account) => onStep({ account })}
      />
    </div>
    <TextField
      label="Cost"
      value={step.cost}
      onChange={(cost) => onStep({ cost })}
      fault={fault}
      hint="such as 29 EUR"
    />
  </>
);
