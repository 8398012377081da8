import { useParams } from '@tanstack/react-router';
import { useMemo } from 'react';
import { depthZones, type SidesOfParts } from '#report/depth/depth-model';
import type { Verdict } from '#verdict/verdict';
import type { EngineView } from '../engine/engine-client.ts';
import { useVerdict } from '../engine/use-verdict.ts';
import { useAssessment } from '../ledger/use-assessment.ts';
import { Button } from '../look/button.tsx';
import { DescribePanel } from './describe-panel.tsx';
import { type FastenerRow, fastenerRows, holdersOf } from './fastener-rows.ts';
import { NamesPanel } from './names-panel.tsx';
import { type PartRow, partRows } from './part-rows.ts';
import questionStyles from './question-panel.module.css';
import { QuestionHead, QuestionPanel } from './question-panel.tsx';
import { nameOf, type ReviewSource, reviewSource, shownOf } from './review-source.ts';
import { FastenersTable, PartsTable } from './review-tables.tsx';
import { SectionPicture } from './section-picture.tsx';
import { sidesOfParts } from './sides-of-parts.ts';
import { sightQuestion } from './sight-answer.ts';
import styles from './structure-screen.module.css';
import { TrialsPanel } from './trials-panel.tsx';
import { type Review, useReview } from './use-review.ts';

/** The structure as the picture one edits: the depth section, the question a part or fastener, the trials, the names to confirm. */
export const StructureScreen = () => {
  const { assessment } = useParams({ from: '/a/$assessment' });
  const { open, snapshot } = useAssessment(assessment);
  const { document, revision } = snapshot;
  const engine = useVerdict(document, revision);
  const source = useMemo(() => reviewSource(document), [document]);
  const sides = useMemo(() => sidesOfParts(source, engine.verdict), [source, engine.verdict]);
  const rows = useMemo(() => partRows(source, engine.verdict, sides), [source, engine.verdict, sides]);
  const fasteners = useMemo(() => fastenerRows(source), [source]);
  const review = useReview(source, askedOf(rows, fasteners), open);
  if (rows.length === 0)
    return (
      <section>
        <h2>Structure</h2>
        <p>The record has no part yet. Parts appear here as they are logged at the bench.</p>
        <NamesPanel source={source} open={open} assessment={assessment} />
      </section>
    );
  const choosing = { chosen: review.subject, onChoose: review.choose };
  return (
    <div className={styles.sheet}>
      <Section engine={engine} review={review} sides={sides} />
      <div className={styles.question}>
        <Question source={source} review={review} fasteners={fasteners} />
      </div>
      <div className={styles.rest}>
        <TrialsPanel source={source} open={open} isComputing={engine.busy} unanswered={unanswered(rows)} />
        <PartsTable rows={rows} {...choosing} />
        {fasteners.length > 0 && <FastenersTable rows={fasteners} {...choosing} />}
        <NamesPanel source={source} open={open} assessment={assessment} />
      </div>
    </div>
  );
};

const unanswered = (rows: readonly PartRow[]): number => rows.filter(({ isAnswered }) => !isAnswered).length;

/** In which order is the pass by sight made? Parts, shallow first; then the fasteners of the record, those without ends too. */
const askedOf = (parts: readonly PartRow[], fasteners: readonly FastenerRow[]) => [
  ...parts.map(({ part, isAnswered }) => ({ subject: part, isAnswered })),
  ...fasteners
    .filter(({ isRecorded }) => isRecorded)
    .map(({ fastener, isAnswered }) => ({ subject: fastener, isAnswered })),
];

interface SectionProps {
  readonly engine: EngineView;
  readonly review: Review;
  readonly sides: SidesOfParts;
}

const Section = ({ engine: { verdict, problem, busy }, review, sides }: SectionProps) => {
  const zones = useMemo(() => (verdict ? depthZones(verdict, sides) : []), [verdict, sides]);
  const { kind, sets } = review.draft;
  const named = useMemo(() => new Set(kind === 'sets' ? sets.flat() : []), [kind, sets]);
  return (
    <section className={styles.section} aria-labelledby="depth-section" aria-busy={busy}>
      <h2 id="depth-section">Depth section</h2>
      <p className={styles.soft}>{legend(verdict)}</p>
      {problem !== undefined && <p role="alert">Nothing new could be computed: {problem}</p>}
      <p className={styles.soft} role="status">
        {busy ? (verdict ? 'Being computed anew; what stands here is of the record before.' : 'Being computed …') : ' '}
      </p>
      {verdict && zones.length === 0 && <p>Nothing shows yet how deep any part lies, so there is nothing to draw.</p>}
      {zones.length > 0 && (
        <SectionPicture zones={zones} chosen={review.subject} named={named} onChoose={review.choose} />
      )}
    </section>
  );
};

const legend = (verdict: Verdict | undefined): string => {
  const faces = (verdict?.faces ?? []).map(({ name }) => name);
  const lines = faces.length > 0 ? `The heavy lines are the faces: ${faces.join(', ')}. ` : '';
  const marks = faces.length > 1 ? ' A wedge with a name at a face: that part can be reached from there too.' : '';
  return `${lines}A part lies as deep as the steps that free it. Heavy edge: priority part. Hatching: depth that open facts could still add. A line leads to what must be off first. Broken edge: named in the answer being given.${marks}`;
};

interface QuestionProps {
  readonly source: ReviewSource;
  readonly review: Review;
  readonly fasteners: readonly FastenerRow[];
}

const Question = ({ source, review, fasteners }: QuestionProps) => {
  const { subject, draft, next, choose } = review;
  if (subject === undefined) return <Beginning source={source} review={review} />;
  if (source.device.fasteners.get(subject)?.between === undefined && !source.device.parts.has(subject))
    return (
      <section className={questionStyles.panel} aria-labelledby="sight-question">
        <QuestionHead source={source} subject={subject} />
        <DescribePanel key={subject} source={source} fastener={subject} onDescribe={review.describe} />
      </section>
    );
  return (
    <QuestionPanel
      key={subject}
      source={source}
      subject={subject}
      holders={holdersOf(subject, source, fasteners)}
      question={sightQuestion(subject, source.device, shownOf(source, subject))}
      draft={draft}
      onDraft={review.setDraft}
      onWrite={review.write}
      onChoose={choose}
      onNext={next === undefined || next === subject ? undefined : () => choose(next)}
    />
  );
};

const Beginning = ({ source, review: { next, choose } }: Pick<QuestionProps, 'source' | 'review'>) => (
  <section className={styles.ask} aria-labelledby="review-pass">
    <h2 id="review-pass">What had to be off?</h2>
    <p>
      One question a part, answered by sight, closes most of what is open. Choose a part in the picture or the table.
    </p>
    {next === undefined ? (
      <p>Every part and fastener has its answer.</p>
    ) : (
      <Button main onPress={() => choose(next)}>
        Begin with {nameOf(source, next)}
      </Button>
    )}
  </section>
);
