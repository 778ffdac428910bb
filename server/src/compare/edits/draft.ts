/** An edit before its places and its reach are looked up. */
import type { EvidenceGuardName } from '../../checks/evidence-guard.ts';
import type { ChangeForm, ChangeKind, ReadingKey } from '../types.ts';
import type { HeldBlock, Spot } from './side.ts';

/** A declaration that lines are told of. */
export interface Thing {
  /** `link`, `set-up`. */
  readonly kind: string;
  readonly name: string;
  /** As subjects end with it: `KQ-OPS-B3`, `cable C-101`. */
  readonly label: string;
}

export interface Draft {
  readonly kind: ChangeKind;
  readonly form: ChangeForm;
  readonly subject: string;
  readonly was?: string | undefined;
  readonly now?: string | undefined;
  readonly note?: string | undefined;
  readonly before?: Spot | undefined;
  readonly after?: Spot | undefined;
  readonly readings?: readonly ReadingKey[];
  readonly count?: number;
  /** What of its block alone it concerns, as called in either state: rows, objects of evidence, a word of the plan. */
  readonly objects?: readonly string[];
  /** All blocks that it is of, where it is of several things. */
  readonly over?: { readonly before: readonly HeldBlock[]; readonly after: readonly HeldBlock[] };
  /** Blocks of the other state that hold the rest of what it is a line of. */
  readonly beside?: readonly HeldBlock[];
  /** When the readings that it is of were tested, as written. */
  readonly times?: readonly string[];
  /** What they are called: `reading`, `event`, `end face`. */
  readonly noun?: string;
  /** What ages readings: work or a repair that is new. */
  readonly work?: true;
  /** Edits of one group that say the same of several things are told as one. */
  readonly group?: {
    readonly key: string;
    readonly of: string;
    readonly many: string;
    /** It is of the things themselves, new or gone. */
    readonly whole?: true;
    /** They need not say the same: they are counted. */
    readonly loose?: true;
  };
  /** What it is a line of, as it is called now; several that are changed alike are told as one. */
  readonly thing?: Thing;
  /** The same of other things. */
  readonly elsewhere?: readonly Draft[];
  /** By which rule the guard of evidence looks at it. */
  readonly guarded?: EvidenceGuardName | undefined;
}
