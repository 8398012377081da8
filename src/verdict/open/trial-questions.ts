import type { Json } from '#record/patch/operation';
import type { OpenTrial } from '#routes/open-trials/with-trial';
import type { RouteSource } from '#routes/problem/from-record';
import { anyRecordName } from '#schemes/eu-2023-1669/bases/record-names';
import { type OpenAnswer, type OpenVariable, writing } from './open-variable.ts';

/** The question whether something comes with exactly this off, put neutrally. */
export const trialQuestion = (source: RouteSource, { subject, off: inOrder }: OpenTrial): OpenVariable => {
  // Sorted, so that the same trial met on two routes is one question.
  const off = [...inOrder].sort();
  const { assessment, device } = source;
  const owner = device.fasteners.has(subject) ? 'fasteners' : 'parts';
  const name = `asked-${shortDigest(off.join('\n'))}`;
  const keys = [owner, subject, 'trials', name];
  const answer = (id: 'yes' | 'no', says: string): OpenAnswer => {
    const trial: Json = { off: [...off], came: id };
    return { id, says, patch: writing(assessment, keys, trial) };
  };
  return {
    id: keys.join('/'),
    kind: 'trial',
    touches: 'routes',
    asks: `does ${anyRecordName(assessment, subject)} come ${offWords(source, subject, off)}?`,
    remedy:
      off.length === 0 ? 'try it on the complete product' : `take off ${named(source, off)}, nothing else, and try`,
    answers: [answer('yes', 'it came'), answer('no', 'it did not come')],
  };
};

/**
 * The question what had to be off before something came, by sight: as it was shown, or with no more than a trial would show
 * enough. Other sights are possible, so that the answers do not cover it. Undefined where nothing shows it reachable yet.
 */
export const sightQuestion = (source: RouteSource, { subject, off: enough }: OpenTrial): OpenVariable | undefined => {
  const { assessment, device, trials } = source;
  const owner = device.fasteners.has(subject) ? 'fasteners' : 'parts';
  const shown = (trials.get(subject)?.positive ?? [])
    .map(({ off }) => off)
    .sort((one, other) => one.length - other.length);
  const [shortest] = shown;
  if (!shortest || assessment[owner]?.[subject] === undefined) return undefined;
  const keys = [owner, subject, 'behind'];
  const outermost = (off: readonly string[]): string[] =>
    off.filter((other) => other !== subject && !liesIn(source, other, off));
  // Whatever came once comes again: every set with which it came stays enough.
  const answer = (id: string, says: string, sets: readonly (readonly string[])[]): OpenAnswer => ({
    id,
    says: `${says}: ${named(source, outermost(sets[0] ?? []))}`,
    patch: writing(assessment, keys, sets.map(outermost)),
  });
  return {
    id: keys.join('/'),
    kind: 'trial',
    touches: 'routes',
    asks: `what had to be off before ${anyRecordName(assessment, subject)} came?`,
    remedy: 'look at it, or at the clip, and say what is in the way',
    answers: [
      answer('as-shown', 'all that was off when it came', shown),
      answer('less', 'no more than', [enough, ...shown]),
    ],
    covers: false,
  };
};

/** Does something go along with a part that is in the list as well? Its own coming off says nothing about access then. */
const liesIn = ({ device }: RouteSource, id: string, among: readonly string[]): boolean =>
  among.some((other) => other !== id && device.parts.get(other)?.cluster.has(id));

/** With only these off, or with those still in that were off when it came: whichever is shorter. */
const offWords = (source: RouteSource, subject: string, off: readonly string[]): string => {
  if (off.length === 0) return 'with everything else in';
  const shown = source.trials.get(subject)?.positive ?? [];
  const left = shown.map((trial) => trial.off.filter((id) => !off.includes(id))).sort((a, b) => a.length - b.length)[0];
  const within = shown.some((trial) => off.every((id) => trial.off.includes(id)));
  if (left && within && left.length > 0 && left.length < off.length) return `with ${named(source, left)} still in`;
  return `with only ${named(source, off)} off`;
};

/** The outermost parts by name; what lies in them goes along. Fasteners only where no part is among them. */
const named = (source: RouteSource, ids: readonly string[]): string => {
  const { assessment, device } = source;
  const parts = ids.filter((id) => device.parts.has(id));
  const outermost = parts.filter(
    (id) => !parts.some((other) => other !== id && device.parts.get(other)?.cluster.has(id)),
  );
  return (outermost.length > 0 ? outermost : ids).map((id) => anyRecordName(assessment, id)).join(', ');
};

/** A short name for a set, the same on every machine: 32-bit FNV-1a in base 36 (Fowler, Noll, Vo; public domain). */
const shortDigest = (text: string): string => {
  let hash = 0x811c9dc5;
  for (const character of text) hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 0x01000193);
  return (hash >>> 0).toString(36);
};
