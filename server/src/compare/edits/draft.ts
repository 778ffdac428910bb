/** An edit before its places and its reach are looked up. */
import type { ChangeForm, ChangeKind, Edit, ReadingKey } from '../types.ts';
import type { Spot } from './side.ts';

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
  /** Edits of one group that say the same of several things are told as one. */
  readonly group?: { readonly key: string; readonly of: string; readonly many: string };
  /** By which rule the guard of evidence looks at it. */
  readonly guarded?:
    | 'reading-altered'
    | 'reading-removed'
    | 'reference-altered'
    | 'reference-removed'
    | 'path';
  readonly guard?: Edit['guard'];
}
