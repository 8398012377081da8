import { wallTime } from '../ledger/change-key.ts';

/** Which day is it here? ISO 8601. */
export const today = (): string => wallTime().slice(0, 10);
