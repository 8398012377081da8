import { type LocatedFault, UnfastenError } from '#quantity/unfasten-error';

/** A refusal of a change, thrown: the first fault speaks, all are listed. */
export const refuseChange = (what: string, where: string, faults: readonly LocatedFault[]): UnfastenError<'change'> => {
  const [first] = faults;
  const more = faults.length > 1 ? ` There are ${faults.length - 1} more.` : '';
  return new UnfastenError('change', first ? `${what}: ${first.message}` : what, {
    where: first && first.path !== '' ? `${where} ${first.path}` : where,
    value: first?.value,
    remedy: `${first?.remedy ?? 'Send it again, complete.'}${more}`,
    faults,
  });
};

/** A fault at one place of a change. */
export const faultAt = (
  path: string,
  message: string,
  { value, remedy }: { readonly value?: unknown; readonly remedy: string },
): LocatedFault => ({ path, message, value, remedy });
