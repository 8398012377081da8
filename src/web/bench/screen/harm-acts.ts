import type { Session } from '#record/schema/assessment';
import { benchKey } from '../commands/bench-key.ts';
import * as patches from '../commands/bench-patches.ts';
import { recordTrial, recordUntried } from '../commands/trial-patches.ts';
import type { LastChance } from '../suggestion/last-chance.ts';
import type { ActsSource } from './bench-acts.ts';

/** What came of a question before an act: it came, it did not, it came but was damaged, or nobody tried. */
export type Answer = 'yes' | 'no' | 'damaged' | 'not-tried';

/** What can be said of harm done, and of what was tried. */
export interface HarmActs {
  readonly damage: (
    what: string,
    severity: 'cosmetic' | 'function' | 'safety',
    more: { subject?: string; after?: string },
  ) => void;
  readonly answer: (question: LastChance, came: Answer) => void;
  /** Stops the clock and opens the record of an incident, with its first note where something was said; gives its key. */
  readonly incident: (note?: string) => string;
  /** Adds a note to the record of an incident. */
  readonly incidentNote: (key: string, note: string) => void;
}

/** Acts that record damage, incidents and answers. */
export const harmActs = (source: ActsSource, session: Session | undefined): HarmActs => {
  const { place, clock, state, put } = source;
  const where = { specimen: session?.specimen ?? '', session: place.session };
  const keyed = (letter: string): string => benchKey(letter, clock(), Math.random);
  return {
    damage: (what, severity, { subject, after }) => {
      const found = state.readout.log.findLast(({ state: is }) => is !== 'hold' && is !== 'retake')?.key;
      const links = { ...(found === undefined ? {} : { found }), ...(after === undefined ? {} : { after }) };
      const about = subject === undefined ? {} : { subject };
      put(patches.recordDamage(place.document, keyed('d'), { what, severity, ...where, ...links, ...about }));
    },
    answer: ({ subject, stillIn }, came) => {
      const seen = { key: keyed('t'), off: [...state.readout.off], ...where };
      const of = { document: place.document, device: state.readout.device };
      if (came === 'not-tried') put(recordUntried(of, [{ ...seen, part: subject, stillIn: [...stillIn] }]));
      else put(recordTrial(of, subject, { ...seen, came }));
    },
    incident: (note = '') => {
      const isHeld = session !== undefined && patches.openHold(session) !== undefined;
      const stop = { key: keyed('h'), from: clock(), reason: 'incident' };
      const key = keyed('d');
      const first = note === '' ? {} : { note };
      const record = { what: 'incident', severity: 'safety' as const, ...where, ...first };
      put([...(isHeld ? [] : patches.startHold(place, stop)), ...patches.recordDamage(place.document, key, record)]);
      return key;
    },
    incidentNote: (key, note) => put(patches.addDamageNote(place.document, key, note)),
  };
};
