import { withinSentence } from '#quantity/within-sentence';
import type { Outlook, OutlookEnd } from '#verdict/outlook/outlook';
import type { Basis, InterpretationVerdict } from '#verdict/verdict';

/** What the ruler shows of one basis besides its figures: its ends as far as they were proved, and what holds on an expectation. */
export interface RuleEnds {
  readonly basis: Basis;
  readonly low?: RuleEnd;
  readonly high?: RuleEnd;
  /** On the first expectation of the record; missing where no number is possible there. */
  readonly expected?: { readonly name: string; readonly low: string; readonly high: string };
}

/** One end of R. */
export interface RuleEnd {
  /** As the outlook has it; missing while its ends are not worked out. */
  readonly R?: string;
  /** `exact` where answers lead there; `bound` where nothing goes beyond it and none were found. */
  readonly kind?: 'exact' | 'bound';
  /** True where another reading of the law would move it. */
  readonly byReading: boolean;
}

/** What does the ruler show besides the figures? Without an outlook the ends that depend on a reading alone. */
export function ruleEnds(
  bases: readonly Basis[],
  outlook: Outlook | undefined,
  interpretations: readonly InterpretationVerdict[],
): readonly RuleEnds[] {
  return bases.map((basis) => {
    const found = outlook?.bases.find((candidate) => candidate.basis === basis);
    const r = found?.figures.find(({ figure }) => figure === 'R');
    const moved = movedByReading(basis, interpretations);
    const [then] = found?.expectations ?? [];
    return {
      basis,
      low: endOf(r?.low, moved.low),
      high: endOf(r?.high, moved.high),
      ...(then?.low !== undefined && then.high !== undefined
        ? { expected: { name: then.name, low: then.low, high: then.high } }
        : {}),
    };
  });
}

function endOf(end: OutlookEnd | undefined, byReading: boolean): RuleEnd {
  if (end === undefined) return { byReading };
  return { R: end.bound, kind: end.exact ? 'exact' : 'bound', byReading };
}

/** Which ends of R on a basis would another reading move? */
function movedByReading(
  basis: Basis,
  interpretations: readonly InterpretationVerdict[],
): { readonly low: boolean; readonly high: boolean } {
  const changes = interpretations
    .flatMap(({ others }) => others.flatMap((other) => other.changes))
    .filter((change) => change.basis === basis);
  return { low: changes.some(({ low }) => low !== undefined), high: changes.some(({ high }) => high !== undefined) };
}

/** What do the marks of a basis say in words? For those who do not see them. */
export function ruleEndWords(ends: RuleEnds | undefined): readonly string[] {
  if (!ends) return [];
  const { expected } = ends;
  return [
    ...(expected ? [`if ${withinSentence(expected.name)} ${expected.low} to ${expected.high}`] : []),
    ...markWords('lowest', ends.low),
    ...markWords('highest', ends.high),
  ];
}

function markWords(which: string, end: RuleEnd | undefined): readonly string[] {
  const kind = end?.kind === undefined ? [] : [end.kind === 'exact' ? 'exact' : 'only a bound'];
  const words = [...kind, ...(end?.byReading ? ['moved by another reading'] : [])];
  return words.length === 0 ? [] : [`${which} end ${words.join(' and ')}`];
}

/** What do the marks of the ruler mean? One sentence for the legend under it. */
export const RULE_LEGEND =
  'Hatched is anything still possible; the solid stretch inside it holds on the expectation. A bar closes an end that answers lead to, a broken bar an end that is only a bound; a ring marks an end that another reading of the law would move.';
