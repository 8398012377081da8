import { InvalidArgumentError } from 'commander';
import type { BasisName } from '#schemes/eu-2023-1669/bases/index-inputs';

const BASES: readonly BasisName[] = ['best', 'observed', 'declared'];

/** Which basis does the text name? Throws commander's `InvalidArgumentError` for anything else. */
export function basisOption(text: string): BasisName {
  const basis = BASES.find((name) => name === text);
  if (basis) return basis;
  throw new InvalidArgumentError(`Write one of ${BASES.join(', ')}.`);
}
