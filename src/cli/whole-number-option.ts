import { InvalidArgumentError } from 'commander';

/** Which number does the text state? Throws commander's `InvalidArgumentError` for anything but a whole number of 1 or more. */
export function wholeNumberOption(text: string): number {
  const number = Number(text);
  if (/^\d{1,9}$/.test(text) && number >= 1) return number;
  throw new InvalidArgumentError(
    number > 999_999_999 ? 'Write a whole number of at most 999999999.' : 'Write a whole number, 1 or more.',
  );
}
