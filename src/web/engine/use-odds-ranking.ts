import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { useLaboratory } from '../laboratory/use-laboratory.ts';
import type { OddsText } from './engine-messages.ts';
import { OddsClient, type OddsPort, type OddsView } from './odds-client.ts';

const startWorker = (): OddsPort =>
  new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module', name: 'odds' });

const numbers = new WeakMap<Assessment, number>();
let last = 0;

/** Which number has a document in questions about odds? The very same object has the same, since a worker gets a copy. */
export const documentNumber = (document: Assessment): number => {
  const known = numbers.get(document);
  if (known !== undefined) return known;
  last += 1;
  numbers.set(document, last);
  return last;
};

/** How do the open questions of a document rank by some odds? Worked out beside the page; nothing while either is missing. */
export const useOddsRanking = (document: Assessment | undefined, odds: OddsText | undefined): OddsView => {
  const [client] = useState(() => new OddsClient(startWorker));
  const current = useLaboratory();
  const isKnown = current.state !== 'asking';
  const laboratory = current.state === 'known' ? current.laboratory : undefined;
  const { fileName, text } = odds ?? {};
  // By their text: odds that are kept after they were tried are the same odds.
  useEffect(() => {
    if (!document || !isKnown || fileName === undefined || text === undefined) return;
    client.ask({ of: documentNumber(document), document, laboratory, odds: { fileName, text } });
  }, [client, document, fileName, text, isKnown, laboratory]);
  useEffect(() => () => client.close(), [client]);
  return useSyncExternalStore(client.subscribe, client.look);
};
