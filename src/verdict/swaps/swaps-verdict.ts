import type { EffectOnFirmware } from '#swaps/diagnosis/effects';
import type { Gap } from '#swaps/diagnosis/gaps';
import type { SetAside } from '#swaps/diagnosis/set-aside';
import type { EffectTable } from '#swaps/lineage/effect-table';
import type { LineageState } from '#swaps/lineage/lineage';
import type { Explanation } from '#swaps/model/explanation';
import type { Arm, EffectCode, Outcome } from '#swaps/model/swap-run';

/** One explanation with its name and what it says. */
export interface NamedExplanation {
  readonly explanation: Explanation;
  readonly name: string;
  readonly says: string;
}

/** One run of one part, as it is shown: ids of the record, names where the record has them. */
export interface SwapRunLine {
  /** Id in `swaps` of the record. */
  readonly id: string;
  readonly run: number;
  readonly host: string;
  /** What was fitted, in words. */
  readonly piece: string;
  readonly isOwn: boolean;
  readonly arm?: Arm;
  readonly firmware?: string;
  readonly effect?: EffectCode;
  readonly outcome: Outcome;
  /** Steps taken since the piece was fitted, in words. */
  readonly steps: readonly string[];
  readonly evidence: readonly string[];
}

/** What became of an effect, with the level tested at both ends in words. */
export interface LineageVerdict {
  readonly state: LineageState;
  readonly words: string;
  /** Ids of the runs at both ends, those of the predecessor left out. */
  readonly runs: readonly string[];
}

/** What the swaps of one part came to: the verdict at the level tested, and everything it rests on. */
export interface SwapVerdict {
  readonly part: string;
  readonly name: string;
  readonly role?: string;
  readonly words: string;
  readonly decided?: NamedExplanation;
  readonly standing: readonly NamedExplanation[];
  /** With a smallest set of runs that exclude it. */
  readonly excluded: readonly (NamedExplanation & { readonly by: readonly string[] })[];
  /** Explanations that do not arise: nothing in any run could come from them. */
  readonly moot: readonly NamedExplanation[];
  /** Where no explanation agrees with all versions: what stands by the newest alone. */
  readonly newestAlone?: { readonly firmware: string; readonly standing: readonly NamedExplanation[] };
  readonly effects: readonly EffectOnFirmware[];
  readonly setAside: readonly SetAside[];
  readonly gaps: readonly Gap[];
  readonly runs: readonly SwapRunLine[];
  readonly acrossFirmware: readonly LineageVerdict[];
  readonly fromPredecessor?: LineageVerdict;
}

/** What the swaps of a record came to. */
export interface SwapsVerdict {
  readonly parts: readonly SwapVerdict[];
  /** The part by firmware table. */
  readonly table: EffectTable;
  /** The record that the lineage was drawn against, by its product's name. */
  readonly predecessor?: string;
  /** What of the record's fits could not be used, or is missing. */
  readonly problems: readonly { readonly address: string; readonly what: string }[];
}
