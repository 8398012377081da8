import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { withLaboratory } from '#verdict/laboratory/with-laboratory';
import { useLaboratory } from '../laboratory/use-laboratory.ts';
import { TrialsClient, type TrialsPort, type TrialsView } from './trials-client.ts';

const startWorker = (): TrialsPort =>
  new Worker(new URL('./open-trials.worker.ts', import.meta.url), { type: 'module', name: 'trials' });

/** The trials that matter to a document, worked out beside the page; not asked for while `document` is missing. */
export const useOpenTrials = (document: Assessment | undefined): TrialsView => {
  const [client] = useState(() => new TrialsClient(startWorker));
  const current = useLaboratory();
  const isKnown = current.state !== 'asking';
  const laboratory = current.state === 'known' ? current.laboratory : undefined;
  const read = useMemo(() => document && withLaboratory(document, laboratory), [document, laboratory]);
  useEffect(() => {
    if (read && isKnown) client.ask(read);
  }, [client, read, isKnown]);
  useEffect(() => () => client.close(), [client]);
  const view = useSyncExternalStore(client.subscribe, client.look);
  // The screen knows the document as it was written.
  return document && view.of === read ? { ...view, of: document } : view;
};
