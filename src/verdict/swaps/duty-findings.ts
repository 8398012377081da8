import type { Assessment, Swap } from '#record/schema/assessment';
import type { SwapFinding } from '#schemes/duties/duty-subject';
import { EFFECT_CODES } from '#swaps/lineage/effect-table';
import { EXPLANATION_WORDS } from '#swaps/model/explanation-words';
import { DONOR_NAMES } from '#swaps/model/fit-words';
import { judgedParts } from './judged-parts.ts';
import { type JudgedPart, newestCell, whatDoesIt } from './what-does-it.ts';

/** What do the swaps of a record show, as duties look at it? Its parts in the record's order. */
export const swapsForDuties = (assessment: Assessment): readonly SwapFinding[] =>
  judgedParts(assessment).flatMap((judged) => dutyFindings(assessment, judged));

/**
 * What did the swaps of one part show, as duties look at it? A finding for each effect that foreign fits showed on the newest
 * firmware tested, with what does it by the diagnosis; runs laid to a piece, a hand or the test are left out. Refused pieces of
 * locked or lost units are findings of their own, open: whether such a refusal counts is not judged here. None where no foreign
 * fit says anything: then the part counts as not swapped.
 */
export const dutyFindings = (assessment: Assessment, judged: JudgedPart): readonly SwapFinding[] => [
  ...findingsAt(assessment, judged, {
    cause: whatDoesIt(judged),
    standing: judged.standing.map(({ explanation }) => EXPLANATION_WORDS[explanation].name),
  }),
  ...(judged.blocked
    ? findingsAt(
        assessment,
        { ...judged, effects: judged.blocked },
        {
          cause: 'open',
          standing: ['blocked donor: whether the refusal of pieces of locked or lost units counts is not judged'],
        },
      )
    : []),
];

const findingsAt = (
  assessment: Assessment,
  judged: Pick<JudgedPart, 'part' | 'effects'>,
  by: Pick<SwapFinding, 'cause' | 'standing'>,
): readonly SwapFinding[] => {
  const cell = newestCell(judged);
  return EFFECT_CODES.filter((code) => cell?.counts[code] !== undefined).map((effect) => {
    const runs = cell?.showing[effect] ?? [];
    const swaps = runs.flatMap((id) => assessment.swaps?.[id] ?? []);
    const kinds = [...new Set(swaps.flatMap(({ donor }) => (donor ? donor.kind : [])))].sort();
    return {
      part: judged.part,
      effect,
      ...by,
      pieces: kinds.map((kind) => DONOR_NAMES[kind]).sort(),
      kinds,
      runs,
      ...noticeOf(swaps),
      ...(cell?.firmware === undefined ? {} : { firmware: cell.firmware }),
      ...latest(swaps),
      evidence: [...new Set(swaps.flatMap(({ evidence }) => evidence ?? []))],
    };
  });
};

/** The runs' word on the notice: misleading where one run's was judged so, not misleading only where all were judged. */
const noticeOf = (swaps: readonly Swap[]): Pick<SwapFinding, 'dismissible' | 'returns' | 'misleading'> => {
  const notices = swaps.flatMap(({ notice }) => notice ?? []);
  const misleading = together(swaps.map(({ notice }) => notice?.misleading));
  // Of a notice the worse is told: that it cannot be put away in one of the runs.
  const stays = together(
    swaps.map(({ notice }) => (notice?.dismissible === undefined ? undefined : !notice.dismissible)),
  );
  const returns = notices.find((notice) => notice.returns !== undefined)?.returns;
  return {
    ...(stays === undefined ? {} : { dismissible: !stays }),
    ...(returns === undefined ? {} : { returns }),
    ...(misleading === undefined ? {} : { misleading }),
  };
};

/** Yes where one says yes, no where all say no. */
const together = (answers: readonly (boolean | undefined)[]): boolean | undefined => {
  if (answers.includes(true)) return true;
  return answers.length > 0 && answers.every((answer) => answer === false) ? false : undefined;
};

const latest = (swaps: readonly Swap[]): Pick<SwapFinding, 'on'> => {
  const days = swaps.flatMap(({ on }) => on ?? []).toSorted((a, b) => Date.parse(a) - Date.parse(b));
  const on = days.at(-1);
  return on === undefined ? {} : { on };
};
