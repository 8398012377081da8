import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { useLaboratory } from '../laboratory/use-laboratory.ts';
import { ToolsClient, type ToolsPort, type ToolsView } from './tools-client.ts';

const startWorker = (): ToolsPort =>
  new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module', name: 'tools' });

/** How the parts of a document are reached with some tools only, worked out beside the page; nothing while `tools` is missing. */
export const useRoutesWithTools = (
  document: Assessment,
  revision: number,
  tools: readonly string[] | undefined,
): ToolsView => {
  const [client] = useState(() => new ToolsClient(startWorker));
  const current = useLaboratory();
  const isKnown = current.state !== 'asking';
  const laboratory = current.state === 'known' ? current.laboratory : undefined;
  useEffect(() => {
    if (tools && isKnown) client.ask({ document, revision, laboratory, tools });
  }, [client, document, revision, isKnown, laboratory, tools]);
  useEffect(() => () => client.close(), [client]);
  return useSyncExternalStore(client.subscribe, client.look);
};
