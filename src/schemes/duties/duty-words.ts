import type { DutyState } from './duty-finding.ts';
import type { DutyMark } from './duty-table.ts';

/** What stands above every table of duties? */
export const DUTIES_HEADER = 'Observations from the record, not legal advice. No authority has looked at them.';

/** How is a state called? */
export const DUTY_STATE_WORDS: Readonly<Record<DutyState, string>> = {
  met: 'met',
  'not-met': 'not met',
  'not-shown': 'not shown',
  'does-not-apply': 'does not apply',
};

/** How sure is a row, in words? Whatever was not read in the text of the law says so. */
export const DUTY_MARK_WORDS: Readonly<Record<DutyMark, string>> = {
  read: 'text read',
  summary: 'text not read: from the official summary',
  secondary: 'text not read: from texts about it',
  memory: 'text not read: from memory, an editable default',
};
