import type { ToolsAnswer, ToolsRequest } from './engine-messages.ts';
import { NewestClient, type NewestView } from './newest-client.ts';
import type { NewestPort } from './newest-line.ts';

/** The engine's side of the line, as far as tools are asked about. */
export type ToolsPort = NewestPort<ToolsRequest, ToolsAnswer>;

/** What a screen sees of the answers; the very same object until something changes. */
export type ToolsView = NewestView<ToolsRequest, ToolsAnswer>;

/** Asks the engine how parts are reached with some tools only. */
export class ToolsClient extends NewestClient<ToolsRequest, ToolsAnswer> {
  constructor(start: () => ToolsPort) {
    super(start, ({ generation, revision, tools }, problem) => ({ generation, revision, tools, problem }));
  }
}
