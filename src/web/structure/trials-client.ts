import type { Assessment } from '#record/schema/assessment';
import { NewestClient } from '../engine/newest-client.ts';
import type { NewestPort } from '../engine/newest-line.ts';
import type { TrialsAnswer, TrialsRequest } from './open-trials-messages.ts';

/** The worker's side of the line. */
export type TrialsPort = NewestPort<TrialsRequest, TrialsAnswer>;

/** Asks which trials matter to a document. */
export class TrialsClient extends NewestClient<TrialsRequest, TrialsAnswer> {
  constructor(start: () => TrialsPort) {
    super(start, ({ generation }, words) => ({
      generation,
      problem: `${words} It starts again with the next change.`,
    }));
  }

  /** Asks about a document; the same object again asks for nothing. */
  askAbout(document: Assessment): void {
    if (this.last?.document !== document) this.ask({ document });
  }
}
