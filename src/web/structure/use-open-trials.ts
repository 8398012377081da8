import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { withLaboratory } from '#verdict/laboratory/with-laboratory';
import { useLaboratory } from '../laboratory/use-laboratory.ts';
import type { TrialsAnswer } from './open-trials-messages.ts';
import { TrialsClient, type TrialsPort } from './trials-client.ts';

const startWorker = (): TrialsPort =>
  new Worker(new URL('./open-trials.worker.ts', import.meta.url), { type: 'module', name: 'trials' });

/** What there is of an answer, and the document it is of. */
interface OpenTrialsView {
  readonly answer: TrialsAnswer | undefined;
  readonly of: Assessment | undefined;
}

/** The trials that matter to a document, worked out beside the page; not asked for while `document` is missing. */
export const useOpenTrials = (document: Assessment | undefined): OpenTrialsView => {
  const [client] = useState(() => new TrialsClient(startWorker));
  const current = useLaboratory();
  const isKnown = current.state !== 'asking';
  const laboratory = current.state === 'known' ? current.laboratory : undefined;
  const read = useMemo(() => document && withLaboratory(document, laboratory), [document, laboratory]);
  useEffect(() => {
    if (read && isKnown) client.askAbout(read);
  }, [client, read, isKnown]);
  useEffect(() => () => client.close(), [client]);
  const { answer, answered } = useSyncExternalStore(client.subscribe, client.look);
  // The screen knows the document as it was written.
  return { answer, of: document && answered?.document === read ? document : answered?.document };
};
