/** Which state of the law does every result rest on? Stamped on every result; a consolidated text is a working document. */
export const CONSOLIDATED = '2026-05-10';

/** What identifies the consolidated text that was read? CELEX number of Regulation (EU) 2023/1669 in that state. */
export const CELEX = '02023R1669-20260510';

/** What is the scheme called in results? The act itself; nothing that was not read bears its name. */
export const SCHEME = 'Regulation (EU) 2023/1669, repairability index';

/** Which version of this implementation made a figure? Bumped whenever a figure could change for the same input. */
export const METHOD_VERSION = 'eu-2023-1669/1';

/** How is a place in the act cited? `clause('Annex IV point 5')` names act, state and place. */
export const clause = (place: string): string => `Regulation (EU) 2023/1669 (state ${CONSOLIDATED}), ${place}`;
