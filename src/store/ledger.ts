import type { Operation } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';

/** Who wants a change, when, and under which key: the same for every kind of change. */
export interface ChangeHead {
  /** Id of the assessment in the ledger; an id as the record knows them. */
  readonly assessment: string;
  /** UUID made by the client. A change sent again under it is answered again, and stored once. */
  readonly change: string;
  readonly author: string;
  /** Wall time at the client, RFC 3339 with offset. */
  readonly at: string;
  readonly note?: string;
}

/** An assessment to begin: its whole document becomes revision 1. */
export interface NewAssessment extends ChangeHead {
  readonly document: unknown;
  /** The file the document was read from, kept byte for byte so that an export can keep its comments. */
  readonly source?: SourceFile;
}

/** The file of an imported folder, as it lay there, and what lay in its `evidence/`. */
export interface SourceFile {
  /** `assessment.yaml`, `assessment.yml` or `assessment.json`. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** SHA-256 of every file in `evidence/`, by its name there. */
  readonly files?: Readonly<Record<string, string>>;
}

/** What the first link of a chain says of the file it was read from: the hash covers the bytes through it. */
export interface SourceNote {
  readonly name: string;
  readonly sha256: string;
  readonly files?: Readonly<Record<string, string>>;
}

/** A change to an assessment, made against a revision the client has seen. */
export interface ChangeRequest extends ChangeHead {
  readonly base: number;
  readonly patch: readonly Operation[];
}

/** The wish to take a change back. The undo is a change of its own; the old one stays in the chain. */
export interface UndoRequest extends ChangeHead {
  /** Revision of the change to take back. */
  readonly undoes: number;
}

/** What the ledger says once a change is on the disk. */
export interface Acknowledgement {
  readonly assessment: string;
  readonly change: string;
  readonly revision: number;
  /** Hash of the stored change, 64 hex digits. */
  readonly hash: string;
  /** Was it applied onto a later revision than it was made against? */
  readonly merged: boolean;
  /** When the ledger took it, RFC 3339. */
  readonly received: string;
  /** True when this very change had been stored before. */
  readonly repeated: boolean;
}

/** One link of the chain: all that its hash covers, and the hash. */
export interface StoredChange extends ChangeHead {
  /** 1 for the first change, then one more each. */
  readonly revision: number;
  /** The revision it was made against; it was applied onto `revision - 1`. */
  readonly base: number;
  readonly patch: readonly Operation[];
  /** When the ledger took it, RFC 3339. */
  readonly received: string;
  /** The revision this change takes back. */
  readonly undoes?: number;
  /** The file a first change was read from. */
  readonly source?: SourceNote;
  /** Hash of the change before; absent in the first. */
  readonly previous?: string;
  readonly hash: string;
}

/** An assessment as it stands at one revision. The document is shared: nobody may write into it. */
export interface Head {
  readonly assessment: string;
  readonly revision: number;
  readonly hash: string;
  readonly document: Assessment;
}

/** How far an assessment is: nothing logged yet, or a log begun. */
export type ShelfState = 'prepared' | 'logged';

/** An assessment as the shelf shows it. */
export interface ShelfItem {
  readonly assessment: string;
  readonly title?: string;
  readonly product: string;
  readonly category?: string;
  readonly invented: boolean;
  readonly state: ShelfState;
  readonly revision: number;
  /** When the ledger took its last change, RFC 3339. */
  readonly changed: string;
}

/** An edition of a house rubric, or of a laboratory's readings, to be kept: its text, and what the text says of itself. */
export interface NewEdition {
  readonly id: string;
  readonly edition: number;
  readonly text: string;
  readonly author: string;
  /** Wall time at the client, RFC 3339 with offset. */
  readonly at: string;
}

/** A kept edition. */
export interface KeptEdition extends NewEdition {
  /** SHA-256 of the text, 64 hex digits. */
  readonly sha256: string;
  /** When the ledger took it, RFC 3339. */
  readonly received: string;
}

/** A kept edition as it stands in the list. */
export type EditionItem = Omit<KeptEdition, 'text'>;

/** The first place where a chain does not hold. */
export interface BrokenLink {
  readonly assessment: string;
  /** Absent when the assessment itself is at fault. */
  readonly revision?: number;
  /** What does not fit, as a sentence. */
  readonly what: string;
}

/** What walking every chain found. */
export interface Verification {
  readonly sound: boolean;
  readonly assessments: number;
  readonly changes: number;
  /** The first broken link of each assessment that has one. */
  readonly broken: readonly BrokenLink[];
  /** What the database's own check of its pages found. */
  readonly damage: readonly string[];
  /** Last revision and hash of each assessment, to be compared with a copy kept elsewhere. */
  readonly heads: readonly { readonly assessment: string; readonly revision: number; readonly hash: string }[];
}

/** A head that had to be made anew from the changes, and why. */
export interface RebuiltHead {
  readonly assessment: string;
  readonly revision: number;
  readonly why: string;
}

/**
 * Where are changes kept so that none that was acknowledged is lost? Append-only: a change is stored whole with the hash
 * of the one before it. Every method may throw an `UnfastenError` of kind `not-in-ledger`, `storage` (disk full or not
 * writable: nothing was acknowledged) or `ledger` (damaged).
 */
export interface Ledger {
  /** Begins an assessment. Throws kind `change` when the document breaks the record's shape or the id is taken. */
  create(request: NewAssessment): Promise<Acknowledgement>;
  /** All assessments, the one changed last first. */
  shelf(): Promise<readonly ShelfItem[]>;
  /** The assessment as it stands now. */
  head(assessment: string): Promise<Head>;
  /** The assessment as it stood at a revision. Cost: linear in the changes up to it. */
  at(assessment: string, revision: number): Promise<Head>;
  /**
   * Takes a change; once this resolves it is on the disk. A change made against an older revision is applied onto the
   * head when no place it touches was touched since. Throws kind `conflict` with both versions otherwise, and kind
   * `change` when it is malformed, over a limit, or its result breaks the record's shape. What merely contradicts itself
   * is taken: a log in progress does that, and the record's checks report it.
   */
  append(request: ChangeRequest): Promise<Acknowledgement>;
  /** Takes a change back by a change of its own. Throws kind `conflict` when its places were changed later. */
  undo(request: UndoRequest): Promise<Acknowledgement>;
  /** The changes after a revision in their order, at most `most` (1,000 unless said). */
  changes(assessment: string, since: number, most?: number): Promise<readonly StoredChange[]>;
  /** The file an assessment was imported from; `undefined` where there was none. */
  source(assessment: string): Promise<SourceFile | undefined>;
  /** Kept editions of house rubrics, the one kept last first. */
  rubrics(): Promise<readonly EditionItem[]>;
  /** One kept edition with its text. */
  rubric(id: string, edition: number): Promise<KeptEdition>;
  /**
   * Keeps an edition for good; the same text again is answered again. Throws kind `change` for an edition that is kept with
   * another text or lies below the highest.
   */
  addRubric(request: NewEdition): Promise<KeptEdition>;
  /** Kept editions of laboratories' readings, the one kept last first: that one holds in the application. */
  laboratories(): Promise<readonly EditionItem[]>;
  /** One kept edition with its text. */
  laboratory(id: string, edition: number): Promise<KeptEdition>;
  /** Keeps an edition for good, as `addRubric` does. */
  addLaboratory(request: NewEdition): Promise<KeptEdition>;
  /** Recomputes every hash and every document, and names the first link of each chain that does not hold. */
  verify(): Promise<Verification>;
  /** Makes every head anew from the changes. Throws kind `ledger` when a chain does not hold. */
  rebuild(): Promise<readonly RebuiltHead[]>;
  /** Writes a consistent copy of the ledger to a file that does not exist yet, while it is in use. */
  backup(file: string): Promise<void>;
  /** Lets go of the data folder. Calling it again does nothing. */
  close(): Promise<void>;
}

/** A ledger that was opened, and what opening it found out of order and put right. */
export interface OpenedLedger {
  readonly ledger: Ledger;
  /** Heads whose stored copy was absent or did not fit, made anew from the changes. */
  readonly rebuilt: readonly RebuiltHead[];
  /** Chains that do not hold: these assessments are shown on the shelf, but neither read nor changed. */
  readonly broken: readonly BrokenLink[];
}
