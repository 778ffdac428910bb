/** By what end faces were graded: in words, or a declared criterion with the kind of face it is for. */
import type { BoundEntry } from '../../../grammar/src/bound.ts';
import { W } from '../../../grammar/src/vocabulary/index.ts';
import { entriesOf } from './like.ts';
import { firstOf } from './lines.ts';
import { resolve } from './resolve.ts';
import type { Scope } from './scope.ts';
import type { BlockId, FaceGrade, Mode } from './types.ts';
import { nameOf, placeIn } from './values.ts';

export interface Graded {
  /** In its own words, or its name with the edition it follows. */
  readonly criterion?: string;
  readonly grade?: FaceGrade;
}

/** Of the entries of an `inspection`. */
export function gradedBy(entries: readonly BoundEntry[], block: BlockId, scope: Scope): Graded {
  const entry = entries.find(({ word }) => word === W.criterion);
  const [value] = entry?.slots.text ?? [];
  const text = value && nameOf([value]);
  const declared = value?.kind === 'name' ? resolve(W.criterion, value, scope) : undefined;
  if (!entry || !declared) return { criterion: text };
  const { lines } = entriesOf(declared, scope);
  const edition = nameOf(firstOf(lines, W.edition)?.entry.slots.title);
  const mode = nameOf(firstOf(lines, W.mode)?.entry.slots.mode) as Mode | undefined;
  const polish = nameOf(firstOf(lines, W.polish)?.entry.slots.polish);
  return {
    criterion: edition === undefined ? text : `${text} (${edition})`,
    grade: { name: declared.name, mode, polish, place: placeIn(block, entry.span) },
  };
}
