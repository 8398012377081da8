import type { EffectCode, Outcome, SwapRun } from '#swaps/model/swap-run';

/** What is otherwise in a run; undefined is not recorded. */
type Otherwise = { readonly [Field in keyof SwapRun]?: SwapRun[Field] | undefined };

/** One run in short: `A+b` is the own part of B in A, `A+a` its own, `A+s1` a spare; the effect; what is otherwise. */
export type RunLine = readonly [fit: `${string}+${string}`, effect: EffectCode | undefined, otherwise?: Otherwise];

/** Runs of one part in their order, at a bench where everything is recorded and as it should be unless said otherwise. */
export const swapRuns = (lines: readonly RunLine[], part = 'camera'): readonly SwapRun[] =>
  lines.map(([fit, effect, otherwise = {}], place) => {
    const [host = '', piece = ''] = fit.split('+');
    const isOwn = piece.toUpperCase() === host;
    const home = /^[a-z]$/.test(piece) ? piece.toUpperCase() : undefined;
    const run: Otherwise = {
      id: `${part}-${place + 1}`,
      order: place + 1,
      host,
      hostRevision: 'R1',
      part,
      piece: {
        key: home === undefined ? piece : `specimen:${home}`,
        ...(home === undefined ? {} : { home }),
        revision: 'R1',
        homeLock: 'none',
      },
      isOwn,
      handled: otherwise.arm !== 'baseline',
      firmware: '5.0.1',
      calibrated: false,
      authorised: false,
      identityMoved: false,
      ready: true,
      settled: true,
      ...(effect === undefined ? {} : { effect }),
      outcome: outcomeOf(effect),
      together: [],
      attributed: true,
      evidence: [],
      ...otherwise,
    };
    return run as SwapRun;
  });

/** Baseline, refit control, cross both ways and swap-back, twice: effects of the foreign fits and of the own part afterwards. */
export const fullProtocol = (foreign: EffectCode, back: EffectCode = 'E0'): readonly RunLine[] => [
  ['A+a', 'E0', { arm: 'baseline' }],
  ['B+b', 'E0', { arm: 'baseline' }],
  ['A+a', 'E0', { arm: 'refit-control' }],
  ['B+b', 'E0', { arm: 'refit-control' }],
  ...([1, 2] as const).flatMap((): RunLine[] => [
    ['A+b', foreign, { arm: 'cross' }],
    ['B+a', foreign, { arm: 'cross' }],
    ['A+a', back, { arm: 'swap-back' }],
    ['B+b', back, { arm: 'swap-back' }],
  ]),
];

const outcomeOf = (effect: EffectCode | undefined): Outcome => {
  if (effect === undefined) return 'unseen';
  if (effect === 'E0') return 'passed';
  return effect === 'E4' ? 'reduced' : 'failed';
};
