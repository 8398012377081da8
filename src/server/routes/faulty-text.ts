import { invariant, type LocatedFault, UnfastenError } from '#quantity/unfasten-error';
import type { Problem } from '#record/problem';

/** How is a text refused that cannot be used? Kind `change`, with every fault and its place in the text. */
export const faultyText = (noun: string, problems: readonly Problem[]): UnfastenError<'change'> => {
  const faults = problems.filter(({ severity }) => severity === 'error').map(faultOf);
  const [first] = faults;
  invariant(first !== undefined, 'a text that cannot be used has an error', noun);
  return new UnfastenError('change', `The ${noun} has faults: ${first.message}`, {
    where: `${first.line}:${first.column} ${first.path}`,
    value: first.value,
    remedy: first.remedy,
    faults,
  });
};

const faultOf = ({ path, line, column, message, value, remedy }: Problem): LocatedFault => ({
  path,
  line,
  column,
  message,
  value,
  remedy,
});
