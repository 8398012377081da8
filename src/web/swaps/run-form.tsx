import { useRef, useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { ARM_NAMES } from '#swaps/model/fit-words';
import { keepAuthor } from '../ledger/author.ts';
import { wallTime } from '../ledger/change-key.ts';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import { Button } from '../look/button.tsx';
import { runLines, runTitle, withFreeNumber } from './begin-run.ts';
import { shownChecks } from './bench-operations.ts';
import { EvidencePart } from './evidence-part.tsx';
import { FitForm } from './fit-form.tsx';
import { runCautions } from './run-cautions.ts';
import { isForeign, type RunDraft } from './run-draft.ts';
import { RunEditor } from './run-editor.tsx';
import { type RunFault, runFaults } from './run-faults.ts';
import { ruledOut, runPatch } from './run-patch.ts';
import styles from './run-sheet.module.css';
import { SettingPart } from './setting-part.tsx';
import { StepPanel } from './step-panel.tsx';
import { ARM_WHYS } from './swap-words.ts';
import type { DraftsInHand } from './use-drafts.ts';

interface RunFormProps {
  readonly open: OpenAssessment;
  readonly document: Assessment;
  readonly run: RunDraft;
  readonly drafts: DraftsInHand;
  readonly onSaved: (words: string) => void;
}

/** One run on the sheet, from what to fit to what was seen. */
export const RunForm = ({ open, document, run, drafts, onSaved }: RunFormProps) => {
  const saving = useSaving({ open, run, drafts, onSaved });
  const { set, setFit } = drafts;
  const form = { document, run, faults: saving.faults };
  return (
    <form
      className={styles.run}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        saving.save(false);
      }}
    >
      <RunHead document={document} run={run} />
      <Cautions document={document} run={run} />
      <RunEditor {...form} onRun={set} onFit={setFit} />
      <SettingPart {...form} onRun={set} />
      <AllClean document={document} run={run} onRun={set} />
      {run.fits.map((fit, index) => (
        <div key={fit.part} className={styles.onePart}>
          <StepPanel {...form} fit={fit} index={index} onFit={(some) => setFit(index, some)} />
          <FitForm {...form} fit={fit} index={index} onFit={(some) => setFit(index, some)} />
        </div>
      ))}
      <EvidencePart {...form} onRun={set} />
      <div
        ref={saving.said}
        tabIndex={-1}
        className={styles.said}
        role={saving.faults.length > 0 ? 'alert' : undefined}
      >
        {saving.faults.length > 0 && <FaultList document={document} run={run} faults={saving.faults} />}
      </div>
      <div className={styles.bar}>
        <Button submit main>
          Save run {run.run}
        </Button>
        <Button onPress={() => saving.save(true)}>Break off, go on later</Button>
      </div>
      <div className={styles.acts}>
        <LetGo onLetGo={drafts.done} />
      </div>
    </form>
  );
};

/** What to fit where, and what for, in the largest type of the sheet. */
const RunHead = ({ document, run }: Pick<RunFormProps, 'document' | 'run'>) => {
  const arms = [...new Set(run.fits.flatMap(({ arm }) => (arm === '' ? [] : [arm])))];
  const isCorrection = run.fits.some(({ corrects }) => corrects !== undefined);
  return (
    <header className={styles.headPart}>
      <h2 className={styles.title} dir="auto" tabIndex={-1}>
        {runTitle(document, run)}
      </h2>
      {isCorrection && (
        <p className={styles.hint}>Saved, this takes the place of what is on record; the old entry stays beside it.</p>
      )}
      {run.fits.length === 0 ? (
        <p className={styles.hint}>Choose below what is looked at.</p>
      ) : (
        <ul className={styles.todo}>
          {runLines(document, run).map((line) => (
            <li key={line} dir="auto">
              {line}
            </li>
          ))}
        </ul>
      )}
      {arms.map((arm) => (
        <p key={arm} className={styles.why}>
          <strong>{ARM_NAMES[arm]}:</strong> {ARM_WHYS[arm]}
        </p>
      ))}
    </header>
  );
};

const Cautions = ({ document, run }: Pick<RunFormProps, 'document' | 'run'>) => (
  <>
    {runCautions(document, run).map(({ id: key, title, text, source }) => (
      <section key={key} className={styles.caution} aria-label="Caution">
        <p>
          <strong>{title}.</strong> {text} <span className={styles.hint}>({source})</span>
        </p>
      </section>
    ))}
  </>
);

/** Where several parts were looked at and all was well, one press says it of each; every one stays to be corrected. */
const AllClean = ({
  document,
  run,
  onRun,
}: Pick<RunFormProps, 'document' | 'run'> & { readonly onRun: (some: Partial<RunDraft>) => void }) => {
  if (run.fits.length < 2) return null;
  const clean = () =>
    onRun({
      fits: run.fits.map((fit) => ({
        ...fit,
        effect: 'E0',
        masked: false,
        checks: Object.fromEntries(shownChecks(document, fit).map(({ id }) => [id, 'pass'])),
      })),
    });
  return (
    <div>
      <Button onPress={clean}>Every function of every part passes, and no trace is seen</Button>
      {run.fits.filter(isForeign).length > 1 && (
        <p className={`${styles.hint} ${styles.underButton}`}>
          Several foreign parts at once: where something fails and is not told which of them did it, say so at each.
        </p>
      )}
    </div>
  );
};

const FaultList = ({
  document,
  run,
  faults,
}: Pick<RunFormProps, 'document' | 'run'> & { readonly faults: readonly RunFault[] }) => (
  <>
    <p>
      <strong>Not saved yet.</strong> What is typed stays here.
    </p>
    <ul className={styles.plain}>
      {faults.map(({ fit, field, words }) => {
        const part = fit === undefined ? undefined : run.fits[fit]?.part;
        const name = part === undefined ? '' : `${document.parts?.[part]?.name ?? part}: `;
        return (
          <li key={`${fit} ${field}`} className={styles.fault}>
            {name}
            {words}
          </li>
        );
      })}
    </ul>
  </>
);

const LetGo = ({ onLetGo }: { readonly onLetGo: () => void }) => {
  const [isSure, setSure] = useState(false);
  return isSure ? (
    <>
      {/* First, where the first press was: a second one by accident keeps what is typed. */}
      <Button onPress={() => setSure(false)}>Keep it</Button>
      <Button onPress={onLetGo}>Yes, throw away what is on this sheet</Button>
    </>
  ) : (
    <Button quiet onPress={() => setSure(true)}>
      Throw away
    </Button>
  );
};

/** Saving: what stands in the way is said, and nothing leaves the sheet before it is in this browser's outbox. */
const useSaving = ({ open, run, drafts, onSaved }: Omit<RunFormProps, 'document'>) => {
  const [faults, setFaults] = useState<readonly RunFault[]>([]);
  const said = useRef<HTMLDivElement>(null);
  const save = async (isBrokenOff: boolean) => {
    const { document } = open.snapshot();
    const made = withFreeNumber(document, run.on === '' ? { ...run, on: wallTime() } : run);
    const found = runFaults(made, isBrokenOff);
    const { patch } = runPatch(document, made, { random: Math.random, isBrokenOff });
    const rule = found.length === 0 ? ruledOut(document, patch) : undefined;
    const all = rule === undefined ? found : [{ field: 'record', words: rule }];
    setFaults(all);
    if (all.length > 0) {
      // After the list of faults is drawn.
      requestAnimationFrame(() => said.current?.focus());
      return;
    }
    if (made.operator.trim() !== '') keepAuthor(made.operator);
    await open.change(patch, `run ${made.run}${isBrokenOff ? ' broken off' : ''}`);
    const moved = made.run === run.run ? '' : ` Another window had taken the number ${run.run}.`;
    onSaved(
      `${isBrokenOff ? `Run ${made.run} is kept as broken off; it waits below.` : `Run ${made.run} is saved.`}${moved}`,
    );
    drafts.done();
  };
  return { faults, said, save: (isBrokenOff: boolean) => void save(isBrokenOff) };
};
