import type { Assessment } from '#record/schema/assessment';
import type { DutyFinding } from '#schemes/duties/duty-finding';
import { DUTY_MARK_WORDS, DUTY_STATE_WORDS } from '#schemes/duties/duty-words';
import { dutyDays } from '#verdict/duties/duty-days';

const STATE_WIDTH = 16;

/** How does a duty read as lines? Its state and title, then what it asks, what was observed, on which facts, and what is missing. */
export const dutyRowLines = (duty: DutyFinding): readonly string[] => {
  const { state, title, clause, mark, id, asks, observed, facts, evidence, missing } = duty;
  const indent = ' '.repeat(STATE_WIDTH);
  return [
    `${DUTY_STATE_WORDS[state].padEnd(STATE_WIDTH)}${title} (${clause}; ${DUTY_MARK_WORDS[mark]}) [${id}]`,
    `${indent}asks: ${asks}`,
    `${indent}observed: ${observed}`,
    ...(facts.length > 0 ? [`${indent}facts: ${facts.join(', ')}`] : []),
    ...(evidence.length > 0 ? [`${indent}evidence: ${evidence.join(', ')}`] : []),
    ...missing.map(({ what, address }) => `${indent}missing: ${what} (${address})`),
  ];
};

/** The same with the law behind it: its name and source, from which days it holds, on which condition, and how it was read. */
export const dutyLines = (duty: DutyFinding, product: Assessment['product']): readonly string[] => {
  const { jurisdiction, law, source, condition, notes, id } = duty;
  const indent = ' '.repeat(STATE_WIDTH);
  const days = dutyDays(id, product);
  return [
    ...dutyRowLines(duty),
    ...(condition === undefined ? [] : [`${indent}on condition: ${condition}`]),
    ...(days.length > 0 ? [`${indent}holds for: ${days.join('; ')}`] : []),
    ...notes.map((note) => `${indent}note: ${note}`),
    `${indent}law: ${jurisdiction}, ${law}`,
    `${indent}source: ${source}`,
  ];
};
