import { useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { ARM_NAMES, DONOR_NAMES } from '#swaps/model/fit-words';
import { Button } from '../look/button.tsx';
import { SelectField } from '../look/select-field.tsx';
import { TextField } from '../look/text-field.tsx';
import { chosenFit, firmwareOptions, likelyArm, pieceChosen, pieceOptions } from './begin-run.ts';
import { UNCUT } from './fit-form.tsx';
import { partName, specimenName } from './recorded-runs.ts';
import { type Arm, type DonorKind, type FitDraft, type HomeLock, isForeign, type RunDraft } from './run-draft.ts';
import type { RunFault } from './run-faults.ts';
import styles from './run-sheet.module.css';
import { ARMS, LOCK_WORDS } from './swap-words.ts';

interface RunEditorProps {
  readonly document: Assessment;
  readonly run: RunDraft;
  readonly faults: readonly RunFault[];
  readonly onRun: (some: Partial<RunDraft>) => void;
  readonly onFit: (index: number, some: Partial<FitDraft>) => void;
}

/** What is fitted where: open while nothing is chosen, folded once the run is settled. */
export const RunEditor = ({ document, run, faults, onRun, onFit }: RunEditorProps) => {
  const [isBegunEmpty] = useState(run.fits.length === 0);
  return (
    <details className={styles.fold} open={isBegunEmpty || undefined}>
      <summary>What is fitted, piece by piece</summary>
      <div className={styles.inside}>
        <Firmware document={document} run={run} onRun={onRun} />
        {run.fits.map((fit, index) => (
          <FitEditor
            key={fit.part}
            document={document}
            run={run}
            fit={fit}
            fault={(field) => faults.find((one) => one.fit === index && one.field === field)?.words}
            onFit={(some) => onFit(index, some)}
            onLeaveOut={() => onRun({ fits: run.fits.filter((_, at) => at !== index) })}
          />
        ))}
        <AddPart document={document} run={run} onRun={onRun} />
      </div>
    </details>
  );
};

const OTHER = '+';

const Firmware = ({ document, run, onRun }: Pick<RunEditorProps, 'document' | 'run' | 'onRun'>) => {
  const listed = firmwareOptions(document, run.firmware);
  const [isTyped, setTyped] = useState(listed.length === 0);
  return (
    <div className={styles.two}>
      {listed.length > 0 && (
        <SelectField
          label={`Firmware of ${specimenName(document, run.host)}`}
          value={isTyped ? OTHER : run.firmware}
          options={[
            ...(run.firmware === '' ? [{ value: '', label: 'not said' }] : []),
            ...listed.map((value) => ({ value, label: value })),
            { value: OTHER, label: 'another' },
          ]}
          onChange={(value) => {
            setTyped(value === OTHER);
            if (value !== OTHER) onRun({ firmware: value });
          }}
        />
      )}
      {isTyped && (
        <TextField label="Firmware version" value={run.firmware} onChange={(firmware) => onRun({ firmware })} />
      )}
    </div>
  );
};

interface FitEditorProps {
  readonly document: Assessment;
  readonly run: RunDraft;
  readonly fit: FitDraft;
  readonly fault: (field: string) => string | undefined;
  readonly onFit: (some: Partial<FitDraft>) => void;
  readonly onLeaveOut: () => void;
}

const FitEditor = ({ document, run, fit, fault, onFit, onLeaveOut }: FitEditorProps) => {
  const { part, piece } = fit;
  const name = partName(document, part);
  return (
    <fieldset className={styles.group}>
      <legend dir="auto">{name}</legend>
      <div className={styles.two}>
        <SelectField
          label="Piece that goes in"
          value={piece.choice}
          options={pieceOptions(document, { host: run.host, part })}
          onChange={(choice) =>
            onFit({
              piece: pieceChosen(document, part, choice),
              arm: likelyArm(document, { host: run.host, part, choice, firmware: run.firmware }),
            })
          }
        />
        <SelectField<Arm | ''>
          label="Stage"
          value={fit.arm}
          options={[{ value: '', label: 'not said' }, ...ARMS.map((value) => ({ value, label: ARM_NAMES[value] }))]}
          onChange={(arm) => onFit({ arm })}
        />
        {isForeign(fit) && <PieceFields fit={fit} fault={fault} onFit={onFit} />}
      </div>
      {fault('piece') !== undefined && <p className={styles.fault}>{fault('piece')}</p>}
      <div>
        <Button label={`Leave it out of this run: ${name}`} onPress={onLeaveOut}>
          Leave it out of this run
        </Button>
      </div>
    </fieldset>
  );
};

const KINDS = (Object.keys(DONOR_NAMES) as DonorKind[]).map((value) => ({ value, label: DONOR_NAMES[value] }));
const LOCKS = (Object.keys(LOCK_WORDS) as HomeLock[]).map((value) => ({ value, label: LOCK_WORDS[value] }));

const PieceFields = ({ fit, fault, onFit }: Pick<FitEditorProps, 'fit' | 'fault' | 'onFit'>) => {
  const { piece } = fit;
  const set = (some: Partial<typeof piece>) => onFit({ piece: { ...piece, ...some } });
  return (
    <>
      {piece.choice === 'other' && (
        <TextField
          label="Its own name on this bench"
          value={piece.item}
          onChange={(item) => set({ item })}
          fault={fault('item')}
          hint="letters, digits, hyphens; the same name is the same piece"
        />
      )}
      <SelectField label="Origin" value={piece.kind} options={KINDS} onChange={(kind) => set({ kind })} />
      <TextField
        label="Revision marked on it"
        value={piece.revision}
        most={UNCUT}
        onChange={(revision) => set({ revision })}
        fault={fault('revision')}
      />
      <SelectField
        label="The unit it came from is"
        value={piece.homeLock}
        options={LOCKS}
        onChange={(homeLock) => set({ homeLock })}
      />
    </>
  );
};

const AddPart = ({ document, run, onRun }: Pick<RunEditorProps, 'document' | 'run' | 'onRun'>) => {
  const listed = Object.keys(document.swapBench?.parts ?? {});
  const all = [...new Set([...listed, ...Object.keys(document.parts ?? {})])];
  const free = all.filter((part) => !run.fits.some((fit) => fit.part === part));
  const [chosen, setPart] = useState<string>();
  const part = chosen !== undefined && free.includes(chosen) ? chosen : free[0];
  if (all.length === 0) return <p>The record has no part yet: parts appear as they are logged at the bench.</p>;
  if (part === undefined) return null;
  return (
    <div className={styles.add}>
      <SelectField
        label="Part that is looked at"
        value={part}
        options={free.map((value) => ({ value, label: partName(document, value) }))}
        onChange={setPart}
      />
      <Button onPress={() => onRun({ fits: [...run.fits, chosenFit(document, run, part)] })}>Add it to this run</Button>
    </div>
  );
};
