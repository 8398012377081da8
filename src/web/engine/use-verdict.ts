import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { useLaboratory } from '../laboratory/use-laboratory.ts';
import { EngineClient, type EnginePort, type EngineView } from './engine-client.ts';
import type { EngineRequest } from './engine-messages.ts';

const startWorker = (): EnginePort =>
  new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module', name: 'engine' });

/**
 * The verdict of a document, computed beside the page; marked `busy` while it is of an older document. With its outlook for a
 * screen that wants one, from its first drawing on. It waits until it is known whose readings hold.
 */
export const useVerdict = (document: Assessment, revision: number, wants?: EngineRequest['wants']): EngineView => {
  const [engine] = useState(() => new EngineClient(startWorker, wants));
  const current = useLaboratory();
  // Figures by the defaults would be shown for a moment as if they held.
  const isKnown = current.state !== 'asking';
  const laboratory = current.state === 'known' ? current.laboratory : undefined;
  useEffect(() => {
    if (isKnown) engine.compute(document, revision, laboratory);
  }, [engine, document, revision, isKnown, laboratory]);
  useEffect(() => () => engine.close(), [engine]);
  return useSyncExternalStore(engine.subscribe, engine.look);
};
