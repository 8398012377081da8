import { useState } from 'react';
import type { Entry } from '#record/schema/assessment';
import type { BenchThing } from '../entry-line/bench-things.ts';
import { KINDS_OF_ACTION } from '../entry-line/lexicon.ts';
import styles from './bench-session.module.css';
import type { BenchOrder } from './key-map.ts';
import type { Bench } from './use-bench.ts';

type Action = NonNullable<Entry['do']>;

const OFF: readonly (readonly [Action, string])[] = [
  ['unscrew', 'unscrew'],
  ['pry', 'pry'],
  ['release-clips', 'clips'],
  ['unplug', 'unplug'],
  ['pull', 'pull'],
  ['peel', 'peel'],
  ['lift', 'lift'],
  ['fold-aside', 'fold aside'],
  ['heat', 'heat'],
  ['dissolve', 'dissolve'],
  ['turn-over', 'turn over'],
];
const BACK: readonly (readonly [Action, string])[] = [
  ['fit', 'fit'],
  ['seat', 'seat'],
  ['plug', 'plug'],
  ['fasten', 'fasten'],
  ['bond', 'bond'],
  ['press', 'press'],
  ['close', 'close'],
  ['power-on', 'power on'],
  ['function-test', 'function test'],
];
const NEEDS_NO_TARGET: ReadonlySet<Action> = new Set(['turn-over', 'power-on', 'function-test']);
/** Targets offered at once, and how many the next page adds. */
const PAGE = 12;

/** Tiles for gloved hands: the action, then what it was done to. */
export const Tiles = ({ bench, give }: { readonly bench: Bench; readonly give: (order: BenchOrder) => void }) => {
  const [action, setAction] = useState<Action>();
  const [shown, setShown] = useState(PAGE);
  const choose = (chosen: Action) => {
    if (NEEDS_NO_TARGET.has(chosen)) bench.acts.name({ do: chosen, tools: [] });
    else setAction(chosen);
    setShown(PAGE);
  };
  if (action !== undefined) {
    const targets = targetsOf(action, bench);
    return (
      <section className={styles.tiles} aria-label={`Target of ${action}`}>
        <Tile name="back to actions" onPress={() => setAction(undefined)} />
        {targets.slice(0, shown).map((thing) => (
          <Tile
            key={`${thing.kind} ${thing.key}`}
            name={thing.name}
            onPress={() => {
              bench.acts.name({ do: action, target: thing.key, ...(action === 'lift' ? { free: [thing.key] } : {}) });
              setAction(undefined);
            }}
          />
        ))}
        {targets.length > shown && (
          <Tile name={`${targets.length - shown} more`} onPress={() => setShown(shown + PAGE)} />
        )}
      </section>
    );
  }
  const actions = bench.session.kind === 'reassembly' ? BACK : OFF;
  return (
    <section className={styles.tiles} aria-label="Actions">
      <Tile name="mark" onPress={() => give('mark')} />
      {actions.map(([key, name]) => (
        <Tile key={key} name={name} onPress={() => choose(key)} />
      ))}
      {bench.session.kind !== 'reassembly' && <Tile name="fit back" onPress={() => choose('fit')} />}
      <Tile name={bench.retake ? 'retake ends' : 'retake'} onPress={() => give('retake')} />
      <Tile name="damage" onPress={() => give('damage')} />
      <Tile name="incident" onPress={() => give('incident')} needs />
    </section>
  );
};

const Tile = ({
  name,
  onPress,
  needs,
}: {
  readonly name: string;
  readonly onPress: () => void;
  readonly needs?: boolean;
}) => (
  <button
    type="button"
    className={styles.tile}
    data-needs={needs}
    onClick={(event) => {
      // The pedal must not press the tile that was touched last.
      event.currentTarget.blur();
      onPress();
    }}
  >
    {name}
  </button>
);

/** What can the action be done to? What its kind fits and is still on comes first, then the rest by name; what is off last. */
const targetsOf = (action: Action, { things, readout, goal }: Bench): readonly BenchThing[] => {
  const isBack = BACK.some(([key]) => key === action);
  const rank = ({ key, kind, fastener }: BenchThing): number => {
    const suits = fastener
      ? KINDS_OF_ACTION[action]?.includes(fastener.kind)
      : action === 'lift' || action === 'fold-aside' || isBack;
    return (
      (suits ? 0 : 2) +
      (readout.off.has(key) === isBack ? 0 : 4) +
      (key === goal ? -1 : 0) +
      (kind === 'part' ? 0 : 0.5)
    );
  };
  return things.filter(({ kind }) => kind !== 'tool').sort((a, b) => rank(a) - rank(b) || (a.name < b.name ? -1 : 1));
};
