import { useEffect, useState, useSyncExternalStore } from 'react';
import { withLaboratory } from '#verdict/laboratory/with-laboratory';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { useLaboratory } from '../laboratory/use-laboratory.ts';
import { readHead, type ShelfItem } from '../ledger/ledger-client.ts';
import { ScoresClient, type ScoresView, type ScoringPort } from './scores-client.ts';

const startWorker = (): ScoringPort =>
  new Worker(new URL('./rubric.worker.ts', import.meta.url), { type: 'module', name: 'rubric' });

/**
 * The scores of all assessments on the shelf by some rubrics, worked out beside the page one after the other; marked busy until
 * they are those of these rubrics. The documents are read once, in the order of the shelf.
 */
export const useScores = (items: readonly ShelfItem[], rubrics: readonly Rubric[]): ScoresView => {
  const [client] = useState(() => new ScoresClient(startWorker));
  const current = useLaboratory();
  const isKnown = current.state !== 'asking';
  const laboratory = current.state === 'known' ? current.laboratory : undefined;
  useEffect(() => {
    if (!isKnown) return;
    let isOver = false;
    void (async () => {
      for (const { assessment } of items) {
        if (isOver) return;
        await readHead(assessment).then(
          ({ revision, document }) => isOver || client.hand(assessment, revision, withLaboratory(document, laboratory)),
          (error: unknown) => client.cannotRead(assessment, error instanceof Error ? error.message : String(error)),
        );
      }
    })();
    return () => {
      isOver = true;
    };
  }, [client, items, isKnown, laboratory]);
  useEffect(() => {
    if (rubrics.length > 0) client.ask(rubrics);
  }, [client, rubrics]);
  useEffect(() => () => client.close(), [client]);
  return useSyncExternalStore(client.subscribe, client.look);
};
