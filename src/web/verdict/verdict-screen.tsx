import { useParams } from '@tanstack/react-router';
import { lazy, Suspense, useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { RULE_LEGEND, ruleEnds } from '#report/rule/rule-ends';
import { letterWords, widthWords } from '#report/sections/verdict-words';
import { readByWords } from '#report/words/reading-words';
import { basisMeaning, basisWords } from '#report/words/terms';
import type { Outlook } from '#verdict/outlook/outlook';
import type { BasisVerdict, FiguresVerdict, Verdict } from '#verdict/verdict';
import type { EngineView } from '../engine/engine-client.ts';
import { useVerdict } from '../engine/use-verdict.ts';
import { useLaboratory } from '../laboratory/use-laboratory.ts';
import { useAssessment } from '../ledger/use-assessment.ts';
import { LedgerTable } from '../look/ledger-table.tsx';
import { Notice } from '../look/notice.tsx';
import { StatePage } from '../look/state-page.tsx';
import { DutiesSection } from './duties-section.tsx';
import { type EndPlace, EndsLedgers } from './ends-ledger.tsx';
import type { FigurePlace } from './figure-place.ts';
import { IndexLedger, PartsLedgers, WalkBack } from './figures-ledgers.tsx';
import { QuestionsPanel } from './questions-panel.tsx';
import { forgetReadingPatch, type ReadingChoice, readingPatch } from './reading-patch.ts';
import { ReadingsPanel } from './readings-panel.tsx';
import { SwapsSection } from './swaps-section.tsx';
import { type Answers, useAnswers } from './use-answers.ts';
import { type Odds, useOdds } from './use-odds.ts';
import { VerdictRuler } from './verdict-ruler.tsx';
import styles from './verdict-screen.module.css';

const EndDialog = lazy(async () => ({ default: (await import('./end-dialog.tsx')).EndDialog }));
const WalkBackDialog = lazy(async () => ({ default: (await import('./walk-back-dialog.tsx')).WalkBackDialog }));

/** Where the product stands under the index, how sure that is, by which readings, and why: for the second screen. */
export const VerdictScreen = () => {
  const { assessment } = useParams({ from: '/a/$assessment' });
  const { open, snapshot } = useAssessment(assessment);
  const engine = useVerdict(snapshot.document, snapshot.revision, 'outlook');
  const [place, setPlace] = useState<FigurePlace>();
  const [end, setEnd] = useState<EndPlace>();
  const answers = useAnswers(open, snapshot.document, engine.outlookOf);
  const odds = useOdds(assessment, engine.outlookOf);
  const { figures } = engine;
  const choose = (choice: ReadingChoice) => {
    const patch = readingPatch(open.snapshot().document, choice);
    if (patch) void open.change(patch, `reading of ${choice.id}: ${choice.value}`);
  };
  const forget = (key: string) => {
    const patch = forgetReadingPatch(open.snapshot().document, key);
    if (patch) void open.change(patch, `reading of ${key} taken back`);
  };
  return (
    <WalkBack.Provider value={setPlace}>
      <div className={styles.sheet} aria-busy={engine.busy}>
        <h2>assessor's determination</h2>
        <State engine={engine} />
        {figures && (
          <Determination
            engine={engine}
            figures={figures}
            document={snapshot.document}
            answers={answers}
            odds={odds}
            onChoose={choose}
            onForget={forget}
            onEnd={setEnd}
          />
        )}
      </div>
      {end && engine.outlook && (
        <Suspense fallback={null}>
          <EndDialog place={end} outlook={engine.outlook} onClose={() => setEnd(undefined)} />
        </Suspense>
      )}
      {place && figures && (
        <Suspense fallback={null}>
          <WalkBackDialog place={place} bases={figures.bases} onClose={() => setPlace(undefined)} />
        </Suspense>
      )}
    </WalkBack.Provider>
  );
};

/** Whose readings should hold and are not there: the figures are without them. */
const MissingLaboratory = () => {
  const current = useLaboratory();
  if (current.state !== 'missing') return null;
  return (
    <Notice needs>
      <p>
        <strong>The laboratory's readings are not there.</strong> {current.why} The figures rest on the record's own
        readings and our defaults.
      </p>
    </Notice>
  );
};

/** Which revision the figures are of, and what is still being worked out; or why there are none. */
const State = ({ engine }: { readonly engine: EngineView }) => {
  const { figures, problem, busy } = engine;
  if (!figures && busy) return <StatePage title="Being worked out …" busy />;
  return (
    <>
      {problem !== undefined && (
        <Notice needs>
          <p>
            <strong>No verdict of the record as it is.</strong> {problem}
          </p>
        </Notice>
      )}
      {figures && (
        <p className={styles.soft} role="status">
          {figures.scheme}, method {figures.method}. {revisionWords(engine)}
        </p>
      )}
      {figures?.readBy && <p className={styles.soft}>{readByWords(figures.readBy)}</p>}
      <MissingLaboratory />
    </>
  );
};

const revisionWords = ({ figuresRevision, revision, problem, busy }: EngineView): string => {
  const of = `Figures of revision ${figuresRevision}`;
  if (problem !== undefined && !busy) return `${of}; there are no newer ones.`;
  if (!busy) return `${of}.`;
  const readings = revision === undefined ? '' : ` The other readings below are of revision ${revision};`;
  return `${of}; newer ones come as they are worked out.${readings}${readings === '' ? '' : ' they follow.'}`;
};

interface DeterminationProps {
  readonly engine: EngineView;
  readonly figures: FiguresVerdict;
  readonly document: Assessment;
  readonly answers: Answers;
  readonly odds: Odds;
  readonly onChoose: (choice: ReadingChoice) => void;
  readonly onForget: (key: string) => void;
  readonly onEnd: (place: EndPlace) => void;
}

const Determination = ({ engine, figures, document, answers, odds, onChoose, onForget, onEnd }: DeterminationProps) => {
  const { bases, scope } = figures;
  const { verdict, outlook } = engine;
  const chosen = (key: string): ReadingChoice | undefined => {
    const reading = document.interpretations?.[key];
    return reading && { id: key, value: reading.value, reason: reading.reason ?? '' };
  };
  return (
    <>
      {!scope.inScope && (
        <p>
          {scope.outOfScope} ({scope.article}). There is no verdict under this scheme; the routes stand all the same.
        </p>
      )}
      {scope.inScope && bases.length === 0 && <p>Nothing on record gives a figure yet.</p>}
      {bases.length > 0 && (
        <>
          <RulerSection engine={engine} bases={bases} />
          <QuestionsPanel
            outlook={outlook}
            state={outlookWords(engine)}
            document={document}
            answers={answers}
            odds={odds}
          />
          <Figures bases={bases} />
          <Ends engine={engine} onEnd={onEnd} />
        </>
      )}
      <Sheet sheet={figures.sheet} />
      {verdict && verdict.interpretations.length > 0 && (
        <section aria-labelledby="interpretations">
          <ReadingsPanel
            readings={verdict.interpretations}
            chosen={chosen}
            named={document.laboratory}
            onChoose={onChoose}
            onForget={onForget}
          />
        </section>
      )}
      <OpenFacts facts={figures.open} />
      {verdict?.swaps && <SwapsSection swaps={verdict.swaps} />}
      {verdict?.duties && <DutiesSection duties={verdict.duties} />}
    </>
  );
};

/** The outlook where it is of the very record that the figures are of: the ruler never mixes two. */
const outlookOfFigures = ({ outlook, outlookOf, figuresOf }: EngineView): Outlook | undefined =>
  outlookOf === figuresOf ? outlook : undefined;

const RulerSection = ({ engine, bases }: { readonly engine: EngineView; readonly bases: readonly BasisVerdict[] }) => {
  const outlook = outlookOfFigures(engine);
  const readings = engine.of === engine.figuresOf ? (engine.verdict?.interpretations ?? []) : [];
  const names = bases.map(({ basis }) => basis);
  const ends = ruleEnds(names, outlook, readings);
  return (
    <section aria-label="Ruler">
      <VerdictRuler bases={bases} ends={ends} />
      <p className={styles.soft}>{RULE_LEGEND}</p>
      <ul className={styles.letters}>
        {bases.map((basis) => (
          <li key={basis.basis}>
            <strong>{basisWords[basis.basis]}</strong>{' '}
            <span className={styles.soft}>({basisMeaning[basis.basis]})</span>: {letterWords(basis)}.{' '}
            {widthWords(
              basis,
              ends.find((own) => own.basis === basis.basis),
            )}{' '}
            {distanceWords(basis)}{' '}
            {outlook?.bases.find((candidate) => candidate.basis === basis.basis)?.conditional.join(' ')}
          </li>
        ))}
      </ul>
    </section>
  );
};

const outlookWords = ({ outlook, outlookRevision, outlookBusy }: EngineView): string => {
  if (!outlookBusy) return outlook ? `Questions of revision ${outlookRevision}.` : '';
  return outlook ? `Questions of revision ${outlookRevision}; more is being worked out …` : 'Being worked out …';
};

const Ends = ({ engine, onEnd }: { readonly engine: EngineView; readonly onEnd: (place: EndPlace) => void }) => {
  const { outlook, outlookRevision, outlookBusy } = engine;
  const isThere = outlook?.bases.some(({ figures }) => figures.length > 0) ?? false;
  if (!isThere && !outlookBusy) return null;
  return (
    <section aria-labelledby="ends" aria-busy={outlookBusy}>
      <h2 id="ends">How far each figure can still move</h2>
      <p className={styles.soft} role="status">
        {isThere && 'Press an end for the answers that lead to it. '}
        {isThere && `Ends of revision ${outlookRevision}. `}
        {outlookBusy && 'Being worked out …'}
      </p>
      {isThere && outlook && <EndsLedgers outlook={outlook} onPress={onEnd} />}
    </section>
  );
};

const Figures = ({ bases }: { readonly bases: readonly BasisVerdict[] }) => (
  <>
    <section aria-labelledby="index-and-scores">
      <h2 id="index-and-scores">Index and scores</h2>
      <p className={styles.soft}>Press a figure to walk it back to its clause, its facts and their evidence.</p>
      <div className={styles.scroll}>
        <IndexLedger bases={bases} />
      </div>
    </section>
    <section aria-labelledby="priority-parts">
      <h2 id="priority-parts">Priority parts</h2>
      <PartsLedgers bases={bases} />
    </section>
  </>
);

const distanceWords = ({ distance }: BasisVerdict): string =>
  distance === undefined ? '' : `To the nearest threshold, ${distance.threshold}: ${distance.toThreshold}.`;

const Sheet = ({ sheet }: { readonly sheet: Verdict['sheet'] }) => {
  const lines = sheet ? [...sheet.refuted, ...sheet.consequences] : [];
  if (lines.length === 0) return null;
  return (
    <section aria-labelledby="public-sheet">
      <h2 id="public-sheet">What the public sheet forces</h2>
      <ul className={styles.letters}>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
};

const OpenFacts = ({ facts }: { readonly facts: Verdict['open'] }) => (
  <section aria-labelledby="open-facts">
    <h2 id="open-facts">Open facts</h2>
    {facts.length === 0 ? (
      <p>Nothing is open: every figure rests on established facts and the readings above.</p>
    ) : (
      <LedgerTable
        caption="Open facts and what would settle each"
        rows={facts}
        rowKey={({ address, what }) => `${address} ${what}`}
        columns={[
          { name: 'not established', cell: ({ what }) => what },
          { name: 'what would settle it', cell: ({ remedy }) => remedy },
          { name: 'place in the record', cell: ({ address }) => address, wideOnly: true },
        ]}
      />
    )}
  </section>
);
