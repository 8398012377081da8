import type { Patch } from '#record/patch/operation';
import type { AssessmentDependencies } from './assessment-dependencies.ts';
import { keepMinePatch } from './keep-mine.ts';
import { type Answer, type Head, NotAnswered } from './ledger-client.ts';
import type { LinkState, Snapshot } from './snapshot.ts';
import {
  afterEvent,
  type Conflict,
  type LedgerChange,
  nextToSend,
  type QueuedChange,
  recoveredState,
  type SyncEvent,
  type SyncState,
  unsentCount,
} from './sync-state.ts';
import type { TabLine } from './tab-line.ts';

const FIRST_PAUSE = 250;
const LONGEST_PAUSE = 8000;

/** Opens an assessment: reads it, brings back what lay in the outbox, follows it, sends. Throws `NotAnswered`. */
export const openAssessment = async (assessment: string, deps: AssessmentDependencies): Promise<OpenAssessment> => {
  const outbox = await deps.outbox.read(assessment).catch(() => []);
  const head = await deps.readHead(assessment);
  const oldest = Math.min(head.revision, ...outbox.map(({ queued }) => queued.base));
  const since = outbox.length === 0 ? [] : await changesBetween(oldest, { assessment, head, deps });
  for (const { queued, home } of outbox)
    if (home || since.some(({ change }) => change === queued.change))
      await deps.outbox.markHome(assessment, queued.change).catch(() => undefined);
  return new OpenAssessment(assessment, deps, recoveredState({ head, outbox, since }));
};

const changesBetween = async (
  since: number,
  {
    assessment,
    head,
    deps,
  }: { readonly assessment: string; readonly head: Head; readonly deps: AssessmentDependencies },
): Promise<readonly LedgerChange[]> => {
  const changes: LedgerChange[] = [];
  for (let last = since; last < head.revision; ) {
    const page = await deps.readChanges(assessment, last);
    if (page.length === 0) break;
    changes.push(...page);
    last = page.at(-1)?.revision ?? head.revision;
  }
  return changes.filter(({ revision }) => revision <= head.revision);
};

/** One assessment as this window works on it. Changes show at once and are kept before they are sent. */
export class OpenAssessment {
  readonly assessment: string;
  private readonly deps: AssessmentDependencies;
  private readonly line: TabLine;
  private readonly listeners = new Set<() => void>();
  private readonly kept = new Set<string>();
  private readonly home = new Set<string>();
  private state: SyncState;
  private shown: Snapshot;
  private link: LinkState = 'connecting';
  private trouble: string | undefined;
  private unkept = false;
  private cut = false;
  private closed = false;
  private kick: () => void = () => undefined;
  private unfollow: () => void = () => undefined;

  constructor(assessment: string, deps: AssessmentDependencies, state: SyncState) {
    this.assessment = assessment;
    this.deps = deps;
    this.state = state;
    for (const { change } of state.queue) this.kept.add(change);
    this.shown = this.look();
    this.line = deps.openLine(assessment, (event) => this.heard(event));
    this.line.whenSender((signal) => this.send(signal));
    void this.followForEver();
  }

  /** Calls `listener` after every change of the snapshot, until the returned function is called. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** What the screens show now. */
  readonly snapshot = (): Snapshot => this.shown;

  /** Changes the document: seen at once, kept, then sent. Resolves when it is kept in this browser. */
  readonly change = (patch: Patch, note?: string): Promise<void> => this.queue(this.queuedChange(patch, note));

  /** Decides a conflict: mine is sent anew over what stands now, or theirs stays. False where mine has no place left. */
  readonly resolve = async ({ queued }: Conflict, choice: 'keep-mine' | 'keep-theirs'): Promise<boolean> => {
    const patch = choice === 'keep-mine' ? keepMinePatch(this.state.document, queued.patch) : undefined;
    if (choice === 'keep-mine' && patch === undefined) return false;
    const by = patch && this.queuedChange(patch, queued.note);
    const event: SyncEvent = by
      ? { type: 'replaced', change: queued.change, by }
      : { type: 'dropped', change: queued.change };
    this.take(event);
    await this.keep(() => this.deps.outbox.remove(this.assessment, queued.change, by));
    if (by) this.kept.add(by.change);
    this.line.say(event);
    this.kick();
    return true;
  };

  /** Stops following and sending. What is not sent stays in the outbox. */
  readonly close = (): void => {
    this.closed = true;
    this.unfollow();
    this.line.close();
    this.kick();
  };

  private queuedChange(patch: Patch, note?: string): QueuedChange {
    const { newChangeKey, wallTime, author } = this.deps;
    const head = { change: newChangeKey(), base: this.state.revision, patch, author: author(), at: wallTime() };
    return note === undefined ? head : { ...head, note };
  }

  private async queue(queued: QueuedChange): Promise<void> {
    this.take({ type: 'queued', queued });
    await this.keep(() => this.deps.outbox.put(this.assessment, queued));
    this.kept.add(queued.change);
    this.line.say({ type: 'queued', queued });
    this.kick();
  }

  /** Where the browser keeps nothing the change is sent all the same, and the screen says so. */
  private async keep(write: () => Promise<void>): Promise<void> {
    try {
      await write();
      if (this.unkept) this.show(() => (this.unkept = false));
    } catch {
      this.show(() => (this.unkept = true));
    }
  }

  private heard(event: SyncEvent): void {
    if (event.type === 'queued') {
      if (this.home.has(event.queued.change)) return;
      this.kept.add(event.queued.change);
    }
    if (event.type === 'replaced') this.kept.add(event.by.change);
    this.take(event);
    this.kick();
  }

  private take(event: SyncEvent): void {
    if (event.type === 'acknowledged') this.home.add(event.change);
    if (event.type === 'arrived') for (const { change } of event.changes) this.cameHome(change);
    this.show(() => (this.state = afterEvent(this.state, event)));
  }

  /** A change of ours can be heard of before, or instead of, the answer to its sending. */
  private cameHome(change: string): void {
    this.home.add(change);
    const { queue, conflicts } = this.state;
    const isOurs = [...queue, ...conflicts.map(({ queued }) => queued)].some((item) => item.change === change);
    if (isOurs) void this.keep(() => this.deps.outbox.markHome(this.assessment, change));
  }

  private show(alter: () => void): void {
    alter();
    const next = this.look();
    const isSame = (Object.keys(next) as (keyof Snapshot)[]).every((key) => next[key] === this.shown[key]);
    if (isSame && 'trouble' in next === 'trouble' in this.shown) return;
    this.shown = next;
    for (const listener of this.listeners) listener();
  }

  private look(): Snapshot {
    const { document, revision, conflicts } = this.state;
    const seen = { document, revision, pending: unsentCount(this.state), conflicts };
    const link = this.cut ? 'offline' : this.link;
    return { ...seen, link, unkept: this.unkept, ...(this.trouble === undefined ? {} : { trouble: this.trouble }) };
  }

  private async send(signal: AbortSignal): Promise<void> {
    // Another window may have queued and closed before this one became the sender.
    for (const { queued, home } of await this.deps.outbox.read(this.assessment).catch(() => []))
      if (!home) this.heard({ type: 'queued', queued });
    for (let pause = FIRST_PAUSE; !this.closed && !signal.aborted; ) {
      try {
        if (await this.sendNext()) pause = FIRST_PAUSE;
      } catch (error) {
        this.failed(error);
        await this.deps.pause(pause);
        pause = Math.min(pause * 2, LONGEST_PAUSE);
      }
    }
  }

  /** Not reached is what offline means, also where the line of the follower looks as if it stood. */
  private failed(error: unknown): void {
    const isCut = error instanceof NotAnswered && !error.reached;
    this.show(() => {
      this.cut = isCut;
      this.trouble = isCut ? undefined : error instanceof Error ? error.message : String(error);
    });
  }

  /** Sends one change, or waits until there is one. True where the server answered. */
  private async sendNext(): Promise<boolean> {
    if (this.state.behind) await this.catchUp();
    const next = nextToSend(this.state);
    if (!next || !this.kept.has(next.change)) {
      await new Promise<void>((resolve) => {
        this.kick = resolve;
      });
      return false;
    }
    await this.settle(next, await this.deps.sendChange(this.assessment, next));
    this.show(() => {
      this.cut = false;
      this.trouble = undefined;
    });
    return true;
  }

  private async settle({ change }: QueuedChange, answer: Answer): Promise<void> {
    const event: SyncEvent =
      answer.status === 'taken'
        ? { type: 'acknowledged', change, revision: answer.revision }
        : {
            type: answer.status === 'clash' ? 'conflicted' : 'refused',
            change,
            why: answer.why,
            clashes: answer.clashes,
          };
    this.take(event);
    this.line.say(event);
    if (answer.status === 'taken') await this.keep(() => this.deps.outbox.markHome(this.assessment, change));
  }

  private async catchUp(): Promise<void> {
    while (this.state.behind && !this.closed) {
      const changes = await this.deps.readChanges(this.assessment, this.state.revision);
      if (changes.length === 0) return;
      const before = this.state.revision;
      this.take({ type: 'arrived', changes });
      if (this.state.revision === before) await this.readAnew();
    }
  }

  /** What arrived does not fit what we hold: that is our mistake somewhere, and the ledger is right. */
  private async readAnew(): Promise<void> {
    const head = await this.deps.readHead(this.assessment);
    const outbox = this.state.queue.map((queued) => ({ queued, home: this.state.acknowledged.has(queued.change) }));
    const since = await changesBetween(this.state.revision, { assessment: this.assessment, head, deps: this.deps });
    const { conflicts } = this.state;
    const fresh = recoveredState({ head, outbox, since });
    this.show(() => (this.state = { ...fresh, conflicts: [...conflicts, ...fresh.conflicts] }));
  }

  private async followForEver(): Promise<void> {
    for (let pause = FIRST_PAUSE; !this.closed; pause = Math.min(pause * 2, LONGEST_PAUSE)) {
      const wasLive = await this.followOnce();
      if (this.closed) return;
      if (wasLive) pause = FIRST_PAUSE;
      this.show(() => (this.link = wasLive ? 'connecting' : 'offline'));
      await this.deps.pause(pause);
    }
  }

  private followOnce(): Promise<boolean> {
    return new Promise((resolve) => {
      let wasLive = false;
      const stop = this.deps.follow(this.assessment, this.state.revision, {
        onOpen: () => {
          wasLive = true;
          this.show(() => (this.link = 'live'));
          this.kick();
        },
        onChange: (change) => {
          this.take({ type: 'arrived', changes: [change] });
          this.kick();
          if (this.state.behind) this.catchUp().catch(() => this.unfollow());
        },
        onEnd: () => resolve(wasLive),
      });
      this.unfollow = () => {
        stop();
        resolve(wasLive);
      };
    });
  }
}
