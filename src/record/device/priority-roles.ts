import { PRIORITY_ROLES } from '../schema/priority-roles.ts';

export { PRIORITY_ROLES };

/** Words that tell two parts of one role apart; with any other word an id names another thing (`display-cable`). */
const WHICH =
  /^(?:\d+|[a-z]|main|left|right|top|bottom|upper|lower|front|rear|inner|outer|ear|power|volume|wide|tele)$/;

/**
 * Which role has a part that only a log names? The one its id equals, or begins with where nothing but a number, a letter or
 * a word of place follows (`speaker-2`, `button-power`); none otherwise.
 */
export const roleFromId = (id: string): (typeof PRIORITY_ROLES)[number] | undefined =>
  PRIORITY_ROLES.find(
    (role) =>
      id === role ||
      (id.startsWith(`${role}-`) &&
        id
          .slice(role.length + 1)
          .split('-')
          .every((word) => WHICH.test(word))),
  );
