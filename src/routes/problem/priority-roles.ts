import { PRIORITY_ROLES } from '#record/device/priority-roles';

/** Which roles does the law weigh, as a set to ask? */
export const PRIORITY_ROLE_NAMES: ReadonlySet<string> = new Set(PRIORITY_ROLES);
