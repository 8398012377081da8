import type { ContentfulStatusCode } from 'hono/utils/http-status';
import { type ErrorKind, isUnfastenError, showValue, type UnfastenError } from '#quantity/unfasten-error';
import { type ProblemJson, problemType } from './problem-json.ts';

/** With which status does each kind of error leave? What is not named here is the person's data in some other way: 422. */
const STATUS: Partial<Readonly<Record<ErrorKind, ContentfulStatusCode>>> = {
  'not-in-ledger': 404,
  conflict: 409,
  change: 422,
  storage: 507,
  ledger: 503,
  'in-use': 503,
};

/** Kinds whose place is a file of this machine, which is nobody's business outside. */
const OF_THE_DISK: ReadonlySet<ErrorKind> = new Set(['storage', 'ledger', 'in-use', 'file']);

/** How does an error of ours leave the server? What, where, which value, what to do; a conflict with both versions. */
export const problemOfError = (error: UnfastenError): ProblemJson => ({
  type: problemType(error.kind),
  title: error.message,
  status: STATUS[error.kind] ?? 422,
  detail: error.message,
  remedy: error.details.remedy,
  ...(OF_THE_DISK.has(error.kind) ? {} : { where: error.details.where, value: showValue(error.details.value) }),
  ...(isUnfastenError(error, 'change') ? { faults: error.details.faults } : {}),
  ...(isUnfastenError(error, 'conflict')
    ? { revision: error.details.headRevision, clashes: error.details.clashes }
    : {}),
});
