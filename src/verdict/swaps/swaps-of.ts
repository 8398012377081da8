import type { Assessment } from '#record/schema/assessment';
import type { PartDiagnosis } from '#swaps/diagnosis/diagnose';
import type { Explanation } from '#swaps/model/explanation';
import { EXPLANATION_WORDS } from '#swaps/model/explanation-words';
import { DONOR_NAMES } from '#swaps/model/fit-words';
import type { Piece, SwapRun } from '#swaps/model/swap-run';
import { type DiagnosedSwaps, diagnosedSwaps } from './diagnosed-swaps.ts';
import { acrossFirmware, diagnosedTable, fromPredecessor } from './lineage-verdicts.ts';
import type { NamedExplanation, SwapRunLine, SwapsVerdict, SwapVerdict } from './swaps-verdict.ts';

/** What else are swaps judged with? The predecessor's record, for the lineage. */
export interface SwapsOptions {
  readonly predecessor?: Assessment | undefined;
}

/**
 * What did the swaps of a record come to, part by part? The verdict at the level tested, what stands, what is excluded by which
 * runs, the effects by firmware, the lineage and what is left open. Undefined where the record has no swaps. Pure; the same
 * record, the same verdict, whatever the order of its swaps.
 */
export const swapsOf = (assessment: Assessment, { predecessor }: SwapsOptions = {}): SwapsVerdict | undefined => {
  const swaps = diagnosedSwaps(assessment);
  if (Object.keys(assessment.swaps ?? {}).length === 0) return undefined;
  const table = diagnosedTable(swaps);
  const across = acrossFirmware(table);
  const before = predecessor && { assessment: predecessor, table: diagnosedTable(diagnosedSwaps(predecessor)) };
  const since = before && fromPredecessor(table, assessment, before);
  return {
    parts: [...swaps.diagnoses.values()].map((diagnosis) => {
      const lineage = since?.get(diagnosis.part);
      return {
        ...partVerdict(assessment, diagnosis, swaps),
        acrossFirmware: across.get(diagnosis.part) ?? [],
        ...(lineage ? { fromPredecessor: lineage } : {}),
      };
    }),
    table,
    ...(predecessor ? { predecessor: predecessor.product.name } : {}),
    problems: swaps.problems,
  };
};

const partVerdict = (
  assessment: Assessment,
  diagnosis: PartDiagnosis,
  { runs }: DiagnosedSwaps,
): Omit<SwapVerdict, 'acrossFirmware'> => {
  const { part, words, decided, standing, excluded, moot, newestAlone, effects, setAside, gaps } = diagnosis;
  const record = assessment.parts?.[part];
  return {
    part,
    name: record?.name ?? part.replaceAll('-', ' '),
    ...(record?.role === undefined ? {} : { role: record.role }),
    words,
    ...(decided === undefined ? {} : { decided: named(decided) }),
    standing: standing.map(({ explanation }) => named(explanation)),
    excluded: excluded.map(({ explanation, by }) => ({ ...named(explanation), by })),
    moot: moot.map(named),
    ...(newestAlone === undefined
      ? {}
      : {
          newestAlone: {
            firmware: newestAlone.firmware,
            standing: newestAlone.standing.map(({ explanation }) => named(explanation)),
          },
        }),
    effects,
    setAside,
    gaps,
    runs: (runs.get(part) ?? []).map((run) => runLine(assessment, run)),
  };
};

const named = (explanation: Explanation): NamedExplanation => ({ explanation, ...EXPLANATION_WORDS[explanation] });

const runLine = (assessment: Assessment, run: SwapRun): SwapRunLine => {
  const { id, order, host, piece, isOwn, arm, firmware, effect, outcome, evidence } = run;
  return {
    id,
    run: order,
    host: hostName(assessment, host),
    piece: pieceWords(assessment, piece, isOwn),
    isOwn,
    ...(arm === undefined ? {} : { arm }),
    ...(firmware === undefined ? {} : { firmware }),
    ...(effect === undefined ? {} : { effect }),
    outcome,
    steps: stepsOf(run),
    evidence,
  };
};

const hostName = ({ specimens }: Assessment, host: string): string => specimens?.[host]?.name ?? `specimen ${host}`;

const pieceWords = (assessment: Assessment, { key, home, kind }: Piece, isOwn: boolean): string => {
  if (isOwn) return 'own part';
  if (home !== undefined) return `part of ${hostName(assessment, home)}`;
  return `${key}${kind === undefined ? '' : ` (${DONOR_NAMES[kind]})`}`;
};

const stepsOf = ({ authorised, calibrated, identityMoved }: SwapRun): readonly string[] => [
  ...(authorised ? ['authorised'] : []),
  ...(calibrated ? ['calibrated'] : []),
  ...(identityMoved ? ['own identity moved'] : []),
];
