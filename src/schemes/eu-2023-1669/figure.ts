import type { Explained, FigureInput, FigureValue, MissingFact } from '#quantity/explained';
import type { Finding } from './input.ts';

/** What stands for a value that is not known yet? */
export const OPEN: FigureValue = { kind: 'open' };

/** A count as a figure. */
export const count = (value: number): FigureValue => ({ kind: 'count', value });

/** A word as a figure. */
export const word = (value: string): FigureValue => ({ kind: 'word', value });

/** An exact decimal as a figure: `decimal(250, 2)` is 2.50. */
export const decimal = (scaled: number, decimals: number): FigureValue => ({ kind: 'decimal', scaled, decimals });

/** A value below the scale as a figure, with the reason. */
export const notScorable = (why: string): FigureValue => ({ kind: 'not-scorable', why });

/** How does a finding read as a figure? Known through `show`; open and not scorable stay what they are. */
const figureOf = <T>(finding: Finding<T>, show: (value: T) => FigureValue): FigureValue => {
  if (finding.state === 'known') return show(finding.value);
  return finding.state === 'open' ? OPEN : notScorable(finding.why);
};

/** Which facts does a finding miss? None unless it is open. */
export const missingOf = <T>(finding: Finding<T>): readonly MissingFact[] =>
  finding.state === 'open' ? finding.missing : [];

/** Which evidence stands behind a finding? None while it is open. */
export const evidenceOf = <T>(finding: Finding<T>): readonly string[] =>
  finding.state === 'open' ? [] : finding.evidence;

/** How does a finding enter a figure, under which address and label? */
export const inputOf = <T>(
  at: { readonly address: string; readonly label: string },
  finding: Finding<T>,
  show: (value: T) => FigureValue,
): FigureInput => ({
  address: at.address,
  label: at.label,
  value: figureOf(finding, show),
  evidence: evidenceOf(finding),
});

/** How does a figure that rests on no evidence (a reading, a weight of the law) enter another? */
export const givenInput = (address: string, label: string, value: FigureValue): FigureInput => ({
  address,
  label,
  value,
  evidence: [],
});

/** Which facts are missing in all of these, each once? By address and wording, in order of first mention. */
export const missingInAll = (lists: readonly (readonly MissingFact[])[]): readonly MissingFact[] => {
  const seen = new Map<string, MissingFact>();
  for (const fact of lists.flat()) {
    const key = JSON.stringify([fact.address, fact.what]);
    if (!seen.has(key)) seen.set(key, fact);
  }
  return [...seen.values()];
};

/** What is the value of a node's input at an address? Open where there is none. */
export const inputValue = (node: Explained, address: string): FigureValue =>
  node.inputs.find((input) => input.address === address)?.value ?? OPEN;

/** What is the value of the child with this id, or else of the input at this address? Open where there is neither. */
export const childOrInput = (node: Explained, id: string, address: string): FigureValue =>
  node.children.find((child) => child.id === id)?.value ?? inputValue(node, address);

/** Is this value below the scale? */
export const isNotScorable = (value: FigureValue): value is Extract<FigureValue, { kind: 'not-scorable' }> =>
  value.kind === 'not-scorable';

/** How many years, exactly? To four decimals, never rounded up. */
export const yearsFigure = (years: number): FigureValue => {
  const nearest = Math.round(years * 10_000);
  return decimal(nearest / 10_000 > years ? nearest - 1 : nearest, 4);
};
