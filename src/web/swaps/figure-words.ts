import { type Explained, showFigure } from '#quantity/explained';

/** Which child of a figure is this? */
const child = (figure: Explained, id: string): Explained | undefined => figure.children.find((one) => one.id === id);
const shown = (figure: Explained | undefined): string => (figure ? showFigure(figure.value) : 'not known');

/** What does the interval for the share of units say, in a sentence? */
export const shareWords = (share: Explained): string => {
  const [low, high] = [child(share, 'low'), child(share, 'high')];
  const counts = low ?? share;
  const [units, refusing] = [shown(child(counts, 'units')), shown(child(counts, 'refusing'))];
  return `${refusing} of ${units} ${units === '1' ? 'specimen shows' : 'specimens show'} it: of all units, anything from ${shown(low)} to ${shown(high)} would agree with that (95 %, exact).`;
};

/** What does the test of refit control against foreign fits say, in a sentence? */
export const fisherWords = (fisher: Explained): string => {
  const one = child(fisher, 'one-sided');
  const count = (id: string): number => {
    const value = one && child(one, id)?.value;
    return value?.kind === 'count' ? value.value : 0;
  };
  const [clean, marked] = [count('control-clean'), count('control-effect')];
  const [foreignClean, foreignMarked] = [count('foreign-clean'), count('foreign-effect')];
  return `${marked} of ${clean + marked} refit controls and ${foreignMarked} of ${foreignClean + foreignMarked} foreign fits show it. If fitting a foreign piece made no difference, so clear a table would come with p = ${shown(one)} (exact, one-sided; two-sided ${shown(child(fisher, 'two-sided'))}).`;
};
