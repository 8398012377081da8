import type { OddsAnswer, OddsRequest } from './engine-messages.ts';
import { NewestClient, type NewestView } from './newest-client.ts';
import type { NewestPort } from './newest-line.ts';

/** The engine's side of the line, as far as odds are asked about. */
export type OddsPort = NewestPort<OddsRequest, OddsAnswer>;

/** What a screen sees of the answers; the very same object until something changes. */
export type OddsView = NewestView<OddsRequest, OddsAnswer>;

/** Asks the engine how open questions rank by somebody's odds. */
export class OddsClient extends NewestClient<OddsRequest, OddsAnswer> {
  constructor(start: () => OddsPort) {
    super(start, ({ generation, of, odds }, trouble) => ({ generation, of, odds, problems: [], trouble }));
  }
}
