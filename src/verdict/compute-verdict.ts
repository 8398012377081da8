import { drained } from '#quantity/drained';
import { replayFindings } from '#record/log/replay';
import { contradictions } from '#record/log/trials';
import type { Assessment } from '#record/schema/assessment';
import { CONSOLIDATED, METHOD_VERSION, SCHEME } from '#schemes/eu-2023-1669/method';
import { cautionsOf } from './cautions.ts';
import { dutiesOf } from './duties/duties-of.ts';
import { examinedOf } from './examined.ts';
import { type Groundwork, groundworkOf, type IndexBasis, indexBases, readingsOf } from './index-bases.ts';
import type { Laboratory } from './laboratory/laboratory-schema.ts';
import { laboratoryReadings, readBy, withLaboratory } from './laboratory/with-laboratory.ts';
import { distanceOf, type LettersLeft, letterState, lettersOf } from './letters.ts';
import { partVerdicts } from './parts/part-verdicts.ts';
import { burdenVerdicts } from './parts/shared-burden.ts';
import { interpretationVerdicts, type OtherReading, otherReadings } from './reading-effects.ts';
import { scopeVerdict } from './scope-verdict.ts';
import { sheetVerdict } from './sheet-verdict.ts';
import { SOURCES } from './sources.ts';
import { swapsOf } from './swaps/swaps-of.ts';
import type { BasisVerdict, FiguresVerdict, Remark, Verdict } from './verdict.ts';
import { namesOf } from './words.ts';

/** By which limits and assumptions is a verdict computed? */
export interface VerdictOptions {
  /** Digest of the record as read, printed in the verdict. */
  readonly recordDigest: string;
  /** The predecessor's record, for the lineage of what its software made of foreign parts. */
  readonly predecessor?: Assessment | undefined;
  /** States a search may expand before it gives its best and a bound (200 000). */
  readonly nodeLimit?: number;
  /** What damage and being stranded are taken to cost in the expected time [s]; assumptions, an hour each by default. */
  readonly lossSeconds?: number;
  /** Whose readings hold where the record chooses none. */
  readonly laboratory?: Laboratory | undefined;
}

/**
 * What does a record amount to? The verdict with every figure, its width and its explanation. Same record and method, same
 * bytes. Out of scope of the index, everything else is still given.
 */
export const computeVerdict = (assessment: Assessment, options: VerdictOptions): Verdict =>
  drained(verdictInStages(assessment, options));

/**
 * The same verdict in stages, for a screen that must not wait: first the figures on every basis with their width, their
 * letters not yet weighed under other readings; then nothing between two pieces of work, so that the caller can breathe or
 * give up; at the end the whole.
 */
export function* verdictInStages(
  written: Assessment,
  options: VerdictOptions,
): Generator<FiguresVerdict | undefined, Verdict, void> {
  const assessment = withLaboratory(written, options.laboratory);
  const groundwork = groundworkOf(assessment);
  const readings = readingsOf(assessment);
  const scope = scopeVerdict(assessment);
  const inScope = scope.inScope !== false;
  const bases = inScope ? indexBases(groundwork, readings) : [];
  const context = { assessment, options, groundwork, readings, scope, bases };
  yield figuresVerdict(context, undefined);
  const others = inScope ? yield* inPieces(otherReadings(groundwork, readings)) : [];
  const names = namesOf(groundwork.source.device, assessment.tools ?? {});
  const parts = yield* inPieces(partVerdicts({ groundwork, readings, bases, names, ...limitsOf(options) }));
  const burden = burdenVerdicts(groundwork, readings, names);
  const swaps = swapsOf(assessment, { predecessor: options.predecessor });
  yield;
  return {
    ...figuresVerdict(context, others),
    parts,
    burden,
    duties: dutiesOf(assessment, { groundwork }),
    ...(swaps ? { swaps } : {}),
    interpretations: inScope
      ? interpretationVerdicts(
          {
            readings,
            bases,
            reasons: reasonsOf(assessment),
            laboratory: laboratoryReadings(written, options.laboratory),
          },
          others,
        )
      : [],
  };
}

function* inPieces<T>(pieces: Iterable<T>): Generator<undefined, readonly T[], void> {
  const all: T[] = [];
  for (const piece of pieces) {
    all.push(piece);
    yield;
  }
  return all;
}

interface Figured {
  readonly assessment: Assessment;
  readonly options: VerdictOptions;
  readonly groundwork: Groundwork;
  readonly readings: ReturnType<typeof readingsOf>;
  readonly scope: ReturnType<typeof scopeVerdict>;
  readonly bases: readonly IndexBasis[];
}

const figuresVerdict = (
  { assessment, options, groundwork, readings, scope, bases }: Figured,
  others: readonly OtherReading[] | undefined,
): FiguresVerdict => {
  const basisVerdicts = bases.map((basis) => basisVerdict(basis, readings, others));
  const sheet = sheetVerdict(assessment, bases);
  return {
    heading: "assessor's determination",
    scheme: SCHEME,
    method: METHOD_VERSION,
    consolidated: CONSOLIDATED,
    recordDigest: options.recordDigest,
    product: productOf(assessment),
    ...(assessment.laboratory === undefined ? {} : { laboratory: assessment.laboratory }),
    ...(options.laboratory ? { readBy: readBy(options.laboratory) } : {}),
    scope,
    examined: examinedOf(groundwork.source),
    bases: basisVerdicts,
    ...(sheet ? { sheet } : {}),
    faces: facesOf(assessment),
    open: openFacts(scope, basisVerdicts),
    damage: damageOf(assessment),
    cautions: cautionsOf(groundwork.source),
    remarks: remarksOf(assessment, groundwork, bases),
    evidence: evidenceOf(assessment),
    sources: SOURCES,
  };
};

const limitsOf = ({ lossSeconds = 3600, nodeLimit = 200_000 }: VerdictOptions) => ({
  losses: { damageMilliseconds: lossSeconds * 1000, strandedMilliseconds: lossSeconds * 1000 },
  nodeLimit,
});

const facesOf = (assessment: Assessment): Verdict['faces'] =>
  Object.entries(assessment.faces ?? {})
    .sort(([, a], [, b]) => (a.order ?? 0) - (b.order ?? 0))
    .map(([id, { name }]) => ({ id, name }));

const reasonsOf = (assessment: Assessment): Readonly<Record<string, string | undefined>> =>
  Object.fromEntries(Object.entries(assessment.interpretations ?? {}).map(([id, { reason }]) => [id, reason]));

const openFacts = (scope: ReturnType<typeof scopeVerdict>, bases: readonly BasisVerdict[]): Verdict['open'] =>
  distinctBy(
    [...(scope.inScope === 'open' ? scope.missing : []), ...bases.flatMap((basis) => basis.missing)],
    (fact) => `${fact.address}\n${fact.what}`,
  );

const damageOf = (assessment: Assessment): Verdict['damage'] =>
  Object.entries(assessment.damage ?? {}).map(([id, damage]) => ({
    id,
    text: `${damage.what} (${damage.severity}${damage.ruling ? `; ruled: ${damage.ruling.replaceAll('-', ' ')}` : ''})`,
    evidence: damage.evidence ?? [],
  }));

const evidenceOf = (assessment: Assessment): Verdict['evidence'] =>
  Object.entries(assessment.evidence ?? {}).map(([id, item]) => ({
    id,
    kind: item.kind,
    says: item.says ?? item.file ?? '',
    ...(item.sha256 === undefined ? {} : { sha256: item.sha256 }),
  }));

const productOf = (assessment: Assessment): Verdict['product'] => {
  const { name, maker, category, released } = assessment.product;
  return {
    name,
    ...(maker === undefined ? {} : { maker }),
    ...(category === undefined ? {} : { category }),
    ...(released === undefined ? {} : { released }),
    invented: assessment.invented === true,
  };
};

const lettersLeft = (basis: IndexBasis, readings: ReturnType<typeof readingsOf>): LettersLeft => ({
  letters: lettersOf(basis, readings),
  mayBeNotScorable: basis.mayBeNotScorable,
});

const basisVerdict = (
  basis: IndexBasis,
  readings: ReturnType<typeof readingsOf>,
  others: readonly OtherReading[] | undefined,
): BasisVerdict => {
  const elsewhere = others?.flatMap((other) =>
    other.bases
      .filter((candidate) => candidate.basis === basis.basis)
      .map((candidate) => lettersLeft(candidate, other.readings)),
  );
  const distance = distanceOf(basis.figures);
  return {
    basis: basis.basis,
    figures: basis.figures,
    tree: basis.tree,
    ...(basis.low ? { low: basis.low } : {}),
    ...(basis.high ? { high: basis.high } : {}),
    mayBeNotScorable: basis.mayBeNotScorable,
    letter: letterState(lettersLeft(basis, readings), elsewhere),
    ...(distance ? { distance } : {}),
    missing: basis.missing,
  };
};

const remarksOf = (assessment: Assessment, { source }: Groundwork, bases: readonly IndexBasis[]): readonly Remark[] => [
  ...replayFindings(assessment, source.device).map((finding) => ({
    path: finding.path,
    text: `${finding.message}; ${finding.remedy}`,
  })),
  ...contradictions(source.trials).map(({ subject, came, didNot }) => ({
    path: didNot,
    text: `${subject} did not come here, though ${came} says it comes with less off`,
  })),
  ...bases.flatMap(({ inputs }) => inputs?.disagreements ?? []),
];

const distinctBy = <T>(list: readonly T[], key: (item: T) => string): readonly T[] => [
  ...new Map(list.map((item) => [key(item), item])).values(),
];
