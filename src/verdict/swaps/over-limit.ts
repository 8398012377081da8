import { sentence } from '#quantity/counts';
import { UnfastenError } from '#quantity/unfasten-error';
import { limitWords } from '#record/limit-words';
import type { limits } from '#record/limits';

/** How is a swap bench that is too large refused? By the limit's name and number, the place and the size found; kind `record`. */
export const overLimit = (name: keyof typeof limits, where: string, value: number): UnfastenError => {
  const { message, remedy } = limitWords(name);
  return new UnfastenError('record', sentence(message), { where, value, remedy });
};
