import { InvalidArgumentError } from 'commander';
import { UnfastenError } from '#quantity/unfasten-error';
import type { Assessment } from '#record/schema/assessment';
import { closestName } from '#record/suggest';

/** Which minutes does the text state? Throws commander's `InvalidArgumentError` for anything but a number above 0. */
export const minutesOption = (text: string): number => {
  const minutes = Number(text);
  if (/^\d{1,6}(\.\d{1,3})?$/.test(text) && minutes > 0) return minutes;
  throw new InvalidArgumentError('Write minutes above 0 and below 1000000, such as 240.');
};

/** Which parts are meant, several as one option each? */
export const partsOption = (text: string, before: readonly string[] = []): readonly string[] => [...before, text];

/**
 * Throws a usage error, placed at the option that named it, for a part that the record's bench for swaps does not have; undefined
 * stays all of them.
 */
export const requireBenchParts = (
  { swapBench }: Assessment,
  parts: readonly string[] | undefined,
  option = '--part',
): readonly string[] | undefined => {
  const known = Object.keys(swapBench?.parts ?? {});
  const unknown = parts?.find((part) => !known.includes(part));
  if (unknown === undefined) return parts;
  throw new UnfastenError('usage', 'There is no such part at the bench for swaps', {
    where: option,
    value: unknown,
    remedy: known.length > 0 ? choiceWords(unknown, known) : 'Describe it under swapBench/parts of the record.',
  });
};

/** What is a person told who named none of these? The one that was probably meant, then all there are, as far as one can read. */
export const choiceWords = (wrong: string, known: readonly string[]): string => {
  const meant = closestName(wrong, known);
  const more = known.length > SHOWN_NAMES ? ` and ${known.length - SHOWN_NAMES} more` : '';
  const choice = `Name one of: ${known.slice(0, SHOWN_NAMES).join(', ')}${more}.`;
  return meant === undefined ? choice : `Did you mean "${meant}"? ${choice}`;
};

/** Names in one message: more are not read. */
const SHOWN_NAMES = 20;

/** What is said where a record has no bench for swaps. */
export const noBenchError = (path: string, { swapBench }: Assessment): UnfastenError => {
  const [what, missing] =
    swapBench === undefined
      ? ['The record has no bench for swaps', '']
      : Object.keys(swapBench.parts ?? {}).length === 0
        ? ['The bench for swaps has no part', '/parts']
        : ['The bench for swaps has no specimen', '/hosts'];
  return new UnfastenError('record', what, {
    where: `${path} swapBench${missing}`,
    value: undefined,
    remedy: 'Describe under swapBench which parts, hosts and donors are at hand.',
  });
};
