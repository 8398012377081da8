import { listed } from '#quantity/counts';
import { EFFECT_WORDS } from '#swaps/diagnosis/effect-words';
import { ARM_NAMES } from '#swaps/model/fit-words';
import type { LineageVerdict, NamedExplanation, SwapRunLine, SwapVerdict } from '#verdict/swaps/swaps-verdict';
import { LedgerTable } from '../look/ledger-table.tsx';
import { fisherWords, shareWords } from './figure-words.ts';
import { RunButtons } from './run-buttons.tsx';
import styles from './swaps-screen.module.css';

interface PartFindingProps {
  readonly part: SwapVerdict;
  readonly predecessor: string | undefined;
  readonly onRun: (id: string) => void;
}

/** What the swaps of one part came to: the verdict at the level tested, what stands, what is excluded by which runs, what is open. */
export const PartFinding = ({ part, predecessor, onRun }: PartFindingProps) => {
  const { standing, excluded, gaps, words, decided } = part;
  const heading = `finding-${part.part}`;
  return (
    <section aria-labelledby={heading} className={styles.part}>
      <h3 id={heading} dir="auto" tabIndex={-1}>
        {part.name}
      </h3>
      <p className={styles.words}>{words}</p>
      <div className={styles.pair}>
        <div>
          <h4>{decided ? 'What stands' : 'Undecided: what still stands'}</h4>
          {standing.length === 0 && <p>No single explanation agrees with every run.</p>}
          <ul className={styles.lines}>
            {standing.map(({ explanation, name, says }) => (
              <li key={explanation}>
                <strong>{name}</strong> <span className={styles.soft}>{says}</span>
              </li>
            ))}
          </ul>
          <NewestAlone part={part} />
        </div>
        <div>
          <h4>What is excluded, by which runs</h4>
          {excluded.length === 0 && <p>Nothing yet.</p>}
          <ul className={`${styles.lines} ${styles.columns}`}>
            {excluded.map(({ explanation, name, by }) => (
              <li key={explanation}>
                <strong>{name}</strong> <span className={styles.soft}>by</span>{' '}
                {by.length === 0 ? 'the runs together' : <RunButtons ids={by} onRun={onRun} />}
              </li>
            ))}
          </ul>
          <Moot moot={part.moot} />
        </div>
      </div>
      {gaps.length > 0 && (
        <>
          <h4>What is left open</h4>
          <ul className={styles.lines}>
            {gaps.map((gap) => (
              <li key={gap.kind}>
                {gap.words} {gap.runs.length > 0 && <RunButtons ids={gap.runs} onRun={onRun} most={4} />}
              </li>
            ))}
          </ul>
        </>
      )}
      <RestsOn part={part} predecessor={predecessor} onRun={onRun} />
    </section>
  );
};

const NewestAlone = ({ part: { newestAlone } }: { readonly part: SwapVerdict }) =>
  newestAlone === undefined ? null : (
    <p className={styles.soft}>
      By the runs on firmware {newestAlone.firmware} alone:{' '}
      {listed(newestAlone.standing.map(({ name }) => name)) || 'nothing stands'}.
    </p>
  );

const Moot = ({ moot }: { readonly moot: readonly NamedExplanation[] }) =>
  moot.length === 0 ? null : (
    <p className={styles.soft}>
      Does not arise, since nothing in any run could come from it: {moot.map(({ name }) => name).join(', ')}.
    </p>
  );

/** Figures, lineage and the runs, folded. */
const RestsOn = ({ part, predecessor, onRun }: PartFindingProps) => {
  const { effects, acrossFirmware, fromPredecessor, runs } = part;
  const figures = effects.flatMap(({ firmware, shareOfUnits, fisher }) => {
    const on = firmware === undefined ? 'firmware not recorded' : `firmware ${firmware}`;
    const share = shareOfUnits ? [`On ${on}: ${shareWords(shareOfUnits)}`] : [];
    return [...share, ...(fisher ? [`On ${on}: ${fisherWords(fisher)}`] : [])];
  });
  return (
    <details className={styles.fold}>
      <summary>
        How far it carries, lineage, and {runs.length === 1 ? 'the one run' : `all ${runs.length} runs`}
        <span className="sr-only"> of {part.name}</span>
      </summary>
      {figures.length > 0 && (
        <>
          <h4>How far it carries</h4>
          <ul className={styles.lines}>
            {figures.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
      <Lineage title="From firmware to firmware" lines={acrossFirmware} onRun={onRun} />
      {fromPredecessor && predecessor !== undefined && (
        <Lineage title={`Since the predecessor, ${predecessor}`} lines={[fromPredecessor]} onRun={onRun} />
      )}
      <RunsLedger part={part} onRun={onRun} />
    </details>
  );
};

interface LineageProps {
  readonly title: string;
  readonly lines: readonly LineageVerdict[];
  readonly onRun: (id: string) => void;
}

const Lineage = ({ title, lines, onRun }: LineageProps) =>
  lines.length === 0 ? null : (
    <>
      <h4>{title}</h4>
      <ul className={styles.lines}>
        {lines.map(({ words, runs }) => (
          <li key={words}>
            {words} <RunButtons ids={runs} onRun={onRun} most={4} />
          </li>
        ))}
      </ul>
    </>
  );

const RunsLedger = ({
  part: { name, runs },
  onRun,
}: {
  readonly part: SwapVerdict;
  readonly onRun: (id: string) => void;
}) => (
  <div className={`${styles.scroll} ${styles.runLedger}`}>
    <LedgerTable
      caption={`Runs of ${name}`}
      rows={runs}
      rowKey={(run) => run.id}
      columns={[
        { name: 'run', cell: (run: SwapRunLine) => <RunButtons ids={[run.id]} onRun={onRun} /> },
        { name: 'host', cell: ({ host }) => <span dir="auto">{host}</span> },
        { name: 'fitted', cell: (run) => <Fitted run={run} /> },
        { name: 'stage', cell: ({ arm }) => (arm === undefined ? 'not said' : ARM_NAMES[arm]) },
        { name: 'firmware', cell: ({ firmware }) => firmware ?? 'not recorded', wideOnly: true },
        { name: 'effect', cell: (run) => effectOf(run) },
        { name: 'evidence', cell: ({ evidence }) => evidence.join(', ') || 'none', wideOnly: true },
      ]}
    />
  </div>
);

const Fitted = ({ run: { piece, steps } }: { readonly run: SwapRunLine }) => (
  <>
    <span dir="auto">{piece}</span>
    {steps.length > 0 && <span className={styles.line}>{steps.join(', ')}</span>}
  </>
);

const effectOf = ({ effect, outcome }: SwapRunLine): string => {
  if (outcome === 'unseen') return 'not seen of this part';
  return effect === undefined ? outcome : `${effect}, ${EFFECT_WORDS[effect]}`;
};
