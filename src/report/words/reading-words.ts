import type { InterpretationVerdict, Verdict } from '#verdict/verdict';

/** How is a reading called on paper? Values are ids of words; they read with spaces. */
export function valueWords(value: string): string {
  return value.replaceAll('-', ' ');
}

/** Who chose a reading, for what reason? One clause: our default, the laboratory with who and when, or the assessment. */
export function chosenWords({ isDefault, kind, value, reason, laboratory }: InterpretationVerdict): string {
  const how = (): string => {
    if (kind === 'fact') return isDefault ? 'a fact, until shown otherwise' : 'a fact, as established';
    if (!laboratory) return isDefault ? 'our default' : 'chosen here';
    if (laboratory.holds) return `as the laboratory reads it (${laboratory.by}, ${laboratory.on})`;
    return laboratory.value === value
      ? 'chosen here, as the laboratory reads it too'
      : `chosen here, where the laboratory reads "${valueWords(laboratory.value)}" (${laboratory.by}, ${laboratory.on}: ${laboratory.reason})`;
  };
  return reason === undefined ? how() : `${how()}: ${reason}`;
}

/** Whose readings hold where the assessment chose none? One sentence. */
export function readByWords({ name, id, edition, date }: NonNullable<Verdict['readBy']>): string {
  return `Where this assessment chose no reading itself, those of the laboratory ${name} hold (${id}, edition ${edition} of ${date}).`;
}
