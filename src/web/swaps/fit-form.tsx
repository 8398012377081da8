import type { Assessment } from '#record/schema/assessment';
import { Button } from '../look/button.tsx';
import { TextField } from '../look/text-field.tsx';
import { deedOf } from './begin-run.ts';
import { ChecklistPanel } from './checklist-panel.tsx';
import { ChoiceRow, YesNo } from './choice-row.tsx';
import { partName } from './recorded-runs.ts';
import { type Effect, type FitDraft, isForeign, type MeasuredDraft, type RunDraft } from './run-draft.ts';
import type { RunFault } from './run-faults.ts';
import styles from './run-sheet.module.css';
import { EFFECTS, effectLine } from './swap-words.ts';
import { TextAreaField } from './text-area-field.tsx';

/** What a part of the sheet about one fit is given. */
export interface FitFormProps {
  readonly document: Assessment;
  readonly run: RunDraft;
  readonly fit: FitDraft;
  readonly index: number;
  readonly faults: readonly RunFault[];
  readonly onFit: (some: Partial<FitDraft>) => void;
}

/** Most characters a field takes from a paste: more than any, since nothing is to be lost; the record's own limit is said beside it. */
export const UNCUT = 1_000_000;

const EFFECT_OPTIONS = EFFECTS.map((value) => ({ value, label: effectLine(value) }));

/** What one part showed: its function list, the effect, the notice, what was measured. */
export const FitForm = (props: FitFormProps) => {
  const { document, run, fit, index, onFit } = props;
  const fault = faultOf(props);
  const heading = `fit-${index}`;
  const others = run.fits.filter((_, at) => at !== index);
  const isHidden = others.some(({ effect }) => effect === 'E6');
  return (
    <section className={styles.fit} aria-labelledby={heading}>
      <h3 id={heading} dir="auto">
        {partName(document, fit.part)}
      </h3>
      {run.fits.length > 1 && <p className={styles.hint}>{deedOf(document, run, fit)}</p>}
      <ChecklistPanel {...props} />
      {(isHidden || fit.masked) && (
        <Tick
          label="Hidden: the device did not run, so nothing was seen of this part"
          checked={fit.masked}
          onChange={(masked) => onFit(masked ? { masked, effect: '' } : { masked })}
        />
      )}
      {!fit.masked && (
        <ChoiceRow<Effect>
          legend="What the software made of it"
          value={fit.effect}
          options={EFFECT_OPTIONS}
          onChange={(effect) => onFit({ effect })}
          stacked
          fault={fault('effect')}
        />
      )}
      {isForeign(fit) && others.some(isForeign) && fit.effect !== '' && fit.effect !== 'E0' && (
        <Tick
          label="Not told which of the foreign parts did it"
          checked={fit.isOfRun}
          onChange={(isOfRun) => onFit({ isOfRun })}
        />
      )}
      {hasNotice(fit) && <NoticePanel {...props} />}
      {fit.effect === 'E6' && <StartsPanel {...props} />}
      <MeasuredPanel {...props} />
      <TextAreaField label="Note" value={fit.note} onChange={(note) => onFit({ note })} fault={fault('note')} />
    </section>
  );
};

/** Why what stands in a field of this fit cannot be written. */
export const faultOf =
  ({ faults, index }: Pick<FitFormProps, 'faults' | 'index'>) =>
  (field: string): string | undefined =>
    faults.find((fault) => fault.fit === index && fault.field === field)?.words;

const hasNotice = ({ effect, notice }: FitDraft): boolean =>
  (effect !== '' && effect !== 'E0') || `${notice.wording}${notice.where}${notice.returns}` !== '';

interface TickProps {
  readonly label: string;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
}

/** One thing that is so or not. */
export const Tick = ({ label, checked, onChange }: TickProps) => (
  <label className={`${styles.tile} ${styles.tick}`}>
    <input type="checkbox" checked={checked} onChange={(event) => onChange(event.target.checked)} />
    <span>{label}</span>
  </label>
);

const ABOUT = [
  { value: 'identity', label: 'the part is another one' },
  { value: 'condition', label: 'its condition' },
  { value: 'other', label: 'something else' },
] as const;

/** The notice: word for word, where, whether it can be put away, when it comes again. */
const NoticePanel = (props: FitFormProps) => {
  const { notice } = props.fit;
  const fault = faultOf(props);
  const set = (some: Partial<typeof notice>) => props.onFit({ notice: { ...notice, ...some } });
  return (
    <fieldset className={styles.group}>
      <legend>Notice, if one was seen</legend>
      <TextAreaField
        label="Its wording, word for word"
        value={notice.wording}
        onChange={(wording) => set({ wording })}
        fault={fault('wording')}
      />
      <TextField
        label="Where: lock screen, settings page and so on"
        value={notice.where}
        most={UNCUT}
        onChange={(where) => set({ where })}
        fault={fault('where')}
      />
      <YesNo
        legend="Can be put away at once"
        value={notice.dismissible}
        onChange={(dismissible) => set({ dismissible })}
      />
      <TextField
        label="When it comes again: after a restart, after 24 h, not again"
        value={notice.returns}
        most={UNCUT}
        onChange={(returns) => set({ returns })}
        fault={fault('returns')}
      />
      <ChoiceRow legend="It speaks of" value={notice.about} options={ABOUT} onChange={(about) => set({ about })} />
      <YesNo
        legend="It misleads"
        hint="for a part known to be good"
        value={notice.misleading}
        onChange={(misleading) => set({ misleading })}
      />
    </fieldset>
  );
};

/** How the starts went of a device that did not start. */
const StartsPanel = (props: FitFormProps) => {
  const { starts } = props.fit;
  const fault = faultOf(props);
  const set = (some: Partial<typeof starts>) => props.onFit({ starts: { ...starts, ...some } });
  return (
    <fieldset className={styles.group}>
      <legend>Starts</legend>
      <div className={styles.three}>
        <TextField label="tried" value={starts.tried} onChange={(tried) => set({ tried })} fault={fault('tried')} />
        <TextField
          label="failed"
          value={starts.failed}
          onChange={(failed) => set({ failed })}
          fault={fault('failed')}
        />
        <TextField
          label="from the start to the event"
          value={starts.after}
          onChange={(after) => set({ after })}
          fault={fault('after')}
        />
      </div>
    </fieldset>
  );
};

const EMPTY_LINE: MeasuredDraft = { of: '', before: '', after: '' };

/** What was measured with the own and with the fitted part. */
const MeasuredPanel = (props: FitFormProps) => {
  const { fit, onFit } = props;
  const fault = faultOf(props);
  const isReduced = fit.effect === 'E4' || Object.values(fit.checks).includes('reduced');
  const lines = fit.measured.length === 0 && isReduced ? [EMPTY_LINE] : fit.measured;
  const set = (at: number, some: Partial<MeasuredDraft>) =>
    onFit({ measured: lines.map((line, index) => (index === at ? { ...line, ...some } : line)) });
  return (
    <fieldset className={styles.group}>
      <legend>Measured reduction</legend>
      {lines.length > 0 && <p className={styles.hint}>A number with its unit, such as 0.63 ± 0.02 Pa.</p>}
      {lines.map((line, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the lines are only added at the end and have no other name
        <div key={at} className={styles.three}>
          <TextField
            label="function measured"
            value={line.of}
            most={UNCUT}
            onChange={(of) => set(at, { of })}
            fault={fault(`of-${at}`)}
          />
          <TextField
            label="with the own part"
            value={line.before}
            onChange={(before) => set(at, { before })}
            fault={fault(`before-${at}`)}
          />
          <TextField
            label="as fitted now"
            value={line.after}
            onChange={(after) => set(at, { after })}
            fault={fault(`after-${at}`)}
          />
        </div>
      ))}
      <div>
        <Button onPress={() => onFit({ measured: [...lines, EMPTY_LINE] })}>Add a measurement</Button>
      </div>
    </fieldset>
  );
};
