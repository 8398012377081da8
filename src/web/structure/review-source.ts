import { type Device, deviceOf } from '#record/device/device';
import { partOfJoint } from '#record/device/joints';
import { NO_TRIALS, type SubjectTrials, trialsOf } from '#record/log/trials';
import type { Assessment } from '#record/schema/assessment';
import { clockFace } from '../bench/clock/session-clock.ts';
import { entryWords } from '../bench/live/entry-words.ts';
import { type Occasion, occasionsOf } from './occasions.ts';
import type { SightAnswer } from './sight-answer.ts';

/** What the review reads of a document: its device, and what is shown of every part and fastener. */
export interface ReviewSource {
  readonly document: Assessment;
  readonly device: Device;
  readonly trials: ReadonlyMap<string, SubjectTrials>;
  readonly occasions: ReadonlyMap<string, readonly Occasion[]>;
}

/** Reads a document for the review. Cost: entries times what is off. */
export const reviewSource = (document: Assessment): ReviewSource => {
  const device = deviceOf(document);
  return { document, device, trials: trialsOf(document, device), occasions: occasionsOf(document, device) };
};

/** What is shown of one part or fastener. */
export const shownOf = ({ trials, occasions }: ReviewSource, subject: string) => ({
  trials: trials.get(subject) ?? NO_TRIALS,
  occasions: occasions.get(subject) ?? [],
});

/** How is a part or fastener called? */
export const nameOf = ({ device }: Pick<ReviewSource, 'device'>, id: string): string => {
  const fastener = device.fasteners.get(id);
  const held = fastener && !fastener.record ? partOfJoint(id) : undefined;
  if (held !== undefined) return `joint of ${nameOf({ device }, held)}`;
  return device.parts.get(id)?.name ?? fastener?.name ?? id.replaceAll('-', ' ');
};

/** How does the address of an entry or a trial read? With the session, the time and what was done. */
export const placeWords = ({ document, device }: ReviewSource, address: string): string => {
  const [, session = '', , entry = ''] = address.split('/');
  const said = address.startsWith('sessions/') ? document.sessions?.[session]?.entries[entry] : undefined;
  if (said) return `session ${session}, ${clockFace(said.at)}, ${entryWords(said, device)}`;
  return address.split('/').slice(2).join(' ').replace('trials', 'trial');
};

/** How does an answer read in a line? Up to three names in full, more as a number. */
export const sightWords = (source: Pick<ReviewSource, 'device'>, answer: SightAnswer): string => {
  if (answer === undefined) return 'not known';
  if (answer.length === 0) return 'nothing: known free';
  const words = answer.map((set) =>
    set.length > 3 ? `${set.length} things` : set.map((id) => nameOf(source, id)).join(' and '),
  );
  return words.join(', or ');
};
