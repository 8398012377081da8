import type { Patch } from '#record/patch/operation';
import type { Session } from '#record/schema/assessment';
import { standingEntries } from '#record/standing-entries';
import type { BenchPlace } from './bench-patches.ts';
import { add } from './patch-parts.ts';

/** Begins a retake: what is done from now on, until it ends, repeats an entry and gives no times and no odds. */
export const beginRetake = (
  { document, session }: BenchPlace,
  retake: {
    readonly key: string;
    readonly from: number;
    readonly repeats?: string | undefined;
    readonly note?: string | undefined;
  },
): Patch => {
  const { key, ...fields } = retake;
  const isFirst = document.sessions?.[session]?.retakes === undefined;
  return [
    ...(isFirst ? [add(['sessions', session, 'retakes'], {})] : []),
    add(['sessions', session, 'retakes', key], fields),
  ];
};

/** Ends a retake: the session goes on. */
export const endRetake = ({ session }: BenchPlace, key: string, to: number): Patch => [
  add(['sessions', session, 'retakes', key, 'to'], to),
];

/** Which retake is going on? The one without an end; of several, as two screens may begin them, the last begun. */
export const openRetake = (session: Session): readonly [string, NonNullable<Session['retakes']>[string]] | undefined =>
  Object.entries(session.retakes ?? {})
    .filter(([, { to }]) => to === undefined)
    .sort(([, a], [, b]) => b.from - a.from)[0];

/** Which entry is repeated? The last named one that was worked on one of these things; without any, the last named of all. */
export const entryToRepeat = (session: Session, things: readonly string[] = []): string | undefined =>
  standingEntries(session).findLast(
    ([, { do: action, target = '' }]) => action !== undefined && (things.length === 0 || things.includes(target)),
  )?.[0];
