import {
  type Explained,
  type FigureInput,
  type FigureRule,
  type FigureValue,
  type RuleBook,
  showFigure,
} from '#quantity/explained';
import { fisherExact } from '#quantity/fisher-exact';
import { clopperPearson } from '#quantity/proportion';
import { type Rational, rational, roundToInteger, times } from '#quantity/rational';
import type { SwapRun } from '../model/swap-run.ts';
import { isRefitControl, isSeenAlone } from './told-apart.ts';

/** Two-sided confidence of the interval for the share of units. */
const CONFIDENCE = 0.95;
const DECIMALS = 4;

/** Runs of one part on one firmware version: foreign fits that count, and all runs of the part, pools told apart. */
export interface CountedRuns {
  readonly foreign: readonly SwapRun[];
  readonly all: readonly SwapRun[];
  readonly firmware: string | undefined;
  /** Ids of runs whose effect is laid to something else. */
  readonly setAside: ReadonlySet<string>;
}

/**
 * Which share of units does what these did, exactly (Clopper and Pearson, 95 %, two-sided)? One vote a unit, however often a fit was
 * repeated on it: repeats on the same units are not further units. A unit whose fits disagree counts for neither end. Undefined
 * where no unit was tested. It speaks for all units only if those tested were drawn from them by chance.
 */
export const shareOfUnits = ({ foreign }: CountedRuns): Explained | undefined => {
  if (foreign.length === 0) return undefined;
  const hosts = [...new Set(foreign.map(({ host }) => host))];
  const votes = hosts.map((host) => foreign.filter((run) => run.host === host));
  const isAll = (runs: readonly SwapRun[]): boolean => runs.every(isEffect);
  const refusing = votes.filter(isAll);
  const mixed = votes.filter((runs) => runs.some(isEffect) && !isAll(runs));
  const counts = [
    derived('units', 'units tested', { rule: 'swap-units', runs: foreign }),
    derived('refusing', 'units with the effect in every foreign fit', { rule: 'swap-units', runs: refusing.flat() }),
    derived('mixed', 'units whose foreign fits disagree', { rule: 'swap-units', runs: mixed.flat() }),
  ];
  const ends = [
    derived('low', 'share of units, lower end', { rule: 'swap-share-low', children: counts }),
    derived('high', 'share of units, upper end', { rule: 'swap-share-high', children: counts }),
  ];
  return derived('share-of-units', 'share of units with the effect', { rule: 'swap-share', children: ends });
};

/**
 * How probable would so clear a difference between refit control and foreign fits be if it made none? Fisher's exact test, one-sided
 * (foreign fits show more) and two-sided, over runs on one firmware. It speaks of the fits on these units, not of the model.
 * Undefined where one of the two groups is empty.
 */
export const controlAgainstForeign = ({ foreign, all, firmware, setAside }: CountedRuns): Explained | undefined => {
  const controls = all.filter(
    (run) => run.firmware === firmware && isRefitControl(run, all) && isSeenAlone(run) && !setAside.has(run.id),
  );
  if (controls.length === 0 || foreign.length === 0) return undefined;
  const clean = (runs: readonly SwapRun[]) => runs.filter((run) => !isEffect(run));
  const counts = [
    tally('control-clean', 'refit controls without effect', clean(controls)),
    tally('control-effect', 'refit controls with effect', controls.filter(isEffect)),
    tally('foreign-clean', 'foreign fits without effect', clean(foreign)),
    tally('foreign-effect', 'foreign fits with effect', foreign.filter(isEffect)),
  ];
  const sides = [
    derived('one-sided', 'p, one-sided', { rule: 'swap-fisher-one', children: counts }),
    derived('two-sided', 'p, two-sided', { rule: 'swap-fisher-two', children: counts }),
  ];
  return derived('control-against-foreign', 'refit control against foreign fits', {
    rule: 'swap-fisher',
    children: sides,
  });
};

const isEffect = ({ outcome }: SwapRun): boolean => outcome !== 'passed';

const tally = (id: string, label: string, runs: readonly SwapRun[]): Explained =>
  derived(id, label, { rule: 'swap-runs', runs });

const inputOf = ({ id, host, effect, outcome, evidence }: SwapRun): FigureInput => ({
  address: `swaps/${id}`,
  label: host,
  value: { kind: 'word', value: effect ?? outcome },
  evidence,
});

interface Derivation {
  readonly rule: keyof typeof RULES;
  readonly children?: readonly Explained[];
  readonly runs?: readonly SwapRun[];
}

const derived = (id: string, label: string, { rule, children = [], runs = [] }: Derivation): Explained => {
  const bare = { id, label, rule: RULES[rule], inputs: runs.map(inputOf), missing: [], children };
  return { ...bare, value: swapRules[rule]?.({ ...bare, value: { kind: 'open' } }) ?? { kind: 'open' } };
};

const CLOPPER = 'Clopper and Pearson, Biometrika 26 (1934) 404-413';
const FISHER = 'Fisher, The Design of Experiments (1935) chapter II';

const rule = (id: string, clause: string, formula: string): FigureRule => ({ id, clause, formula });

const RULES = {
  'swap-units': rule('swap-units', 'this tool', 'units of the runs named; one vote a unit'),
  'swap-runs': rule('swap-runs', 'this tool', 'number of the runs named'),
  'swap-share-low': rule('swap-share-low', CLOPPER, 'B(0.025; x, n - x + 1), x units refusing of n tested'),
  'swap-share-high': rule('swap-share-high', CLOPPER, 'B(0.975; x + 1, n - x), x units refusing or mixed of n tested'),
  'swap-share': rule('swap-share', CLOPPER, 'lower end to upper end'),
  'swap-fisher-one': rule(
    'swap-fisher-one',
    FISHER,
    'tables with the same margins in which controls are as clean or cleaner',
  ),
  'swap-fisher-two': rule('swap-fisher-two', FISHER, 'tables with the same margins that are at most as probable'),
  'swap-fisher': rule('swap-fisher', FISHER, 'one-sided and two-sided p'),
};

const childCount = (node: Explained, id: string): number => {
  const value = node.children.find((child) => child.id === id)?.value;
  return value?.kind === 'count' ? value.value : 0;
};

const decimal = (share: number): FigureValue => ({
  kind: 'decimal',
  scaled: Math.round(share * 10 ** DECIMALS),
  decimals: DECIMALS,
});

const exactDecimal = (probability: Rational): FigureValue => ({
  kind: 'decimal',
  scaled: Number(roundToInteger(times(probability, rational(10n ** BigInt(DECIMALS))))),
  decimals: DECIMALS,
});

const shareWith = (node: Explained, refusing: number) =>
  clopperPearson({ count: refusing, tries: childCount(node, 'units'), confidence: CONFIDENCE });

const fisherOf = (node: Explained) =>
  fisherExact([
    [childCount(node, 'control-clean'), childCount(node, 'control-effect')],
    [childCount(node, 'foreign-clean'), childCount(node, 'foreign-effect')],
  ]);

const both = (node: Explained, between: string): FigureValue => ({
  kind: 'word',
  value: node.children.map(({ value }) => showFigure(value)).join(between),
});

/** How are the figures of a swap diagnosis recomputed? One rule a figure; see `recomputeMismatches`. */
export const swapRules: RuleBook = {
  'swap-units': (node) => ({ kind: 'count', value: new Set(node.inputs.map(({ label }) => label)).size }),
  'swap-runs': (node) => ({ kind: 'count', value: node.inputs.length }),
  'swap-share-low': (node) => decimal(shareWith(node, childCount(node, 'refusing')).low),
  'swap-share-high': (node) => decimal(shareWith(node, childCount(node, 'refusing') + childCount(node, 'mixed')).high),
  'swap-share': (node) => both(node, ' to '),
  'swap-fisher-one': (node) => exactDecimal(fisherOf(node).greater),
  'swap-fisher-two': (node) => exactDecimal(fisherOf(node).twoSided),
  'swap-fisher': (node) => both(node, ' and '),
};
