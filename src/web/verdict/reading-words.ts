import type { InterpretationVerdict } from '#verdict/verdict';

/** Does another reading of this change anything here? */
export const hasEffect = ({ others }: InterpretationVerdict): boolean =>
  others.some(({ effect, changesLetter }) => changesLetter || !/^nothing\b/.test(effect));

/** What another reading changes on one basis: R and letter for the line, the steps of parts to unfold. */
export interface EffectLine {
  readonly basis: string;
  readonly index: string;
  readonly steps: readonly string[];
}

/** How does an effect, as the engine puts it in words, lie in lines: one a basis? Words without a basis stand alone. */
export const effectLines = (effect: string): readonly EffectLine[] =>
  effect.split('; ').map((line) => {
    const [, basis = '', words = line] = /^([a-z]+): (.*)$/.exec(line) ?? [];
    const pieces = words.split(', ');
    const steps = pieces.filter((piece) => piece.endsWith(' steps'));
    return { basis, index: pieces.filter((piece) => !steps.includes(piece)).join(', '), steps };
  });
