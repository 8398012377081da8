import { InvalidArgumentError, Option } from 'commander';

/** How long may a search run unless the person says otherwise [s]? */
export const defaultSeconds = 10;

/** The `--seconds N` option that every searching command has: a limit of 0 or more [s]. */
export function secondsOption(): Option {
  return new Option('--seconds <n>', 'time limit of the search; past it the best found comes with its bound')
    .default(defaultSeconds)
    .argParser(parseSeconds);
}

/** Which limit does the text state [s]? Throws commander's `InvalidArgumentError` for anything but a finite number of 0 or more. */
export function parseSeconds(text: string): number {
  const seconds = Number(text);
  if (text.trim() === '' || !Number.isFinite(seconds) || seconds < 0) {
    throw new InvalidArgumentError('Write a number of seconds, 0 or more.');
  }
  return seconds;
}
