import { counted, listed as listedWords } from '#quantity/counts';
import { NO_TRIALS } from '#record/log/trials';
import type { TrialMove } from '#routes/open-trials/open-trials';
import type { OpenTrial } from '#routes/open-trials/with-trial';
import { nameOf, type ReviewSource } from './review-source.ts';

/** Names told in full in one line; more are told as a number. */
const TOLD = 4;

/**
 * How is a trial asked for? Neutrally: by what would still be on, measured against the moment at which the thing came with the
 * most like it off; where it never came, by what is off.
 */
export const trialQuestion = (trial: OpenTrial, source: ReviewSource): string => {
  const name = nameOf(source, trial.subject);
  const isFastener = source.device.fasteners.has(trial.subject);
  const on = stillOn(trial, source);
  const how =
    on === undefined
      ? offWords(trial, source)
      : `while ${listed(on, source)} ${on.length === 1 ? 'is' : 'are'} still on`;
  return isFastener ? `Can ${name} be released ${how}?` : `Does ${name} come ${how}?`;
};

const offWords = (trial: OpenTrial, source: ReviewSource): string =>
  offToTell(trial, source).length === 0 ? 'with nothing else off' : 'with no more off than this';

/** What was off when it came but is on in this trial, at the moment that is nearest to it? Undefined where it never came. */
const stillOn = ({ subject, off }: OpenTrial, source: ReviewSource): readonly string[] | undefined => {
  const gone = new Set(off);
  const gaps = (source.trials.get(subject) ?? NO_TRIALS).positive.map((came) => came.off.filter((id) => !gone.has(id)));
  const [first, ...rest] = gaps;
  const nearest = rest.reduce((least, gap) => (gap.length < (least?.length ?? 0) ? gap : least), first);
  return nearest && withoutWhatFollows(nearest, source);
};

/** What is off in a trial, as a person names it: not what goes along with a carrier, what held that is off, or the thing's own holders. */
export const offToTell = ({ subject, off }: OpenTrial, source: ReviewSource): readonly string[] => {
  const own = new Set(source.device.parts.get(subject)?.crossing ?? []);
  return withoutWhatFollows(off, source).filter((id) => !own.has(id));
};

/** Which of these are told, where the others go along with a carrier among them or are fasteners of a part among them? */
const withoutWhatFollows = (ids: readonly string[], { device }: ReviewSource): readonly string[] => {
  const all = new Set(ids);
  const follows = new Set<string>();
  for (const id of all) {
    const part = device.parts.get(id);
    for (const inside of part?.cluster ?? []) if (inside !== id) follows.add(inside);
    for (const fastener of part?.crossing ?? []) follows.add(fastener);
  }
  return ids.filter((id) => !follows.has(id));
};

/** Names in a row, the last after "and"; many as the first few and a number. */
export const listed = (ids: readonly string[], source: ReviewSource): string => {
  const names = ids.slice(0, ids.length > TOLD ? TOLD - 1 : TOLD).map((id) => nameOf(source, id));
  const words = ids.length > TOLD ? [...names, `${ids.length - names.length} more`] : names;
  return listedWords(words);
};

/** What hangs on a trial, without saying which answer does what: the person who answers is not to be led. */
export const movesWords = (moves: readonly TrialMove[], source: ReviewSource): string =>
  moves.length === 0
    ? 'Nothing moves by this alone.'
    : `On it hangs: ${moves.map((move) => moveWords(move, nameOf(source, move.part))).join('; ')}.`;

const moveWords = ({ shown, ifCame, atLeast, ifNot }: TrialMove, name: string): string => {
  if (shown === undefined && ifCame !== undefined) return `whether a route to ${name} is shown`;
  if (ifNot === undefined) return `whether ${name} is reached at all`;
  const steps = Math.abs((shown ?? 0) - (ifCame ?? shown ?? 0)) + Math.abs(ifNot - (atLeast ?? ifNot));
  return `${name}, ${counted(steps, 'step')}`;
};
