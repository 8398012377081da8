import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { SwapsClient, type SwapsPort, type SwapsView } from './swaps-client.ts';
import type { SwapsQuestion } from './swaps-messages.ts';

const startWorker = (): SwapsPort =>
  new Worker(new URL('./swaps.worker.ts', import.meta.url), { type: 'module', name: 'swaps' });

/** What is asked beside the document itself. */
export type SwapsWish = Omit<SwapsQuestion, 'document'>;

/** What the swaps of a document came to and what to do next, or the whole plan; worked out beside the page. */
export const useSwaps = (document: Assessment, { predecessor, wants }: SwapsWish): SwapsView => {
  const [client] = useState(() => new SwapsClient(startWorker));
  useEffect(() => client.ask({ document, predecessor, wants }), [client, document, predecessor, wants]);
  useEffect(() => () => client.close(), [client]);
  return useSyncExternalStore(client.subscribe, client.look);
};
