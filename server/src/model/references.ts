/**
 * Every use of a name in bound entries, told by the vocabulary: which slots and
 * cells hold names, and of which kinds. Definition, references and rename read
 * it, and unknown names are found by it, once for each place in the text.
 */
import type {
  BoundBlock,
  BoundBody,
  BoundEntry,
  NameKind,
  Value,
} from '../../../grammar/src/bound.ts';
import {
  type Context,
  choicesOf,
  findWord,
  type SlotKind,
  tableOf,
  W,
  type WordEntry,
} from '../../../grammar/src/vocabulary/index.ts';
import type { Reference } from './declaration.ts';
import type { BlockId } from './types.ts';
import { nameOfValue, placeIn } from './values.ts';

/** A value that stands where a name of one of these kinds is wanted. */
export interface NameUse {
  readonly kinds: readonly NameKind[];
  readonly value: Value;
  readonly entry?: BoundEntry;
}

/** Every use of a name in a block, in order of the text. */
export function referencesIn(bound: BoundBlock, block: BlockId): readonly Reference[] {
  const references: Reference[] = [];
  for (const { kinds, value } of namesUsed(bound.entries, 'file')) {
    const name = nameOfValue(value);
    if (name === undefined) continue;
    // Where a name of several kinds may stand, it is a use of each: what is declared decides.
    for (const kind of kinds) references.push({ kind, name, place: placeIn(block, value.span) });
  }
  return references;
}

interface NameSlot {
  readonly kinds: readonly NameKind[];
  readonly choices: readonly string[];
  readonly takesText: boolean;
}

const nameSlotsOf = new Map<WordEntry, ReadonlyMap<string, NameSlot>>();

/** Slots of a word that hold names. */
function nameSlots(word: WordEntry): ReadonlyMap<string, NameSlot> {
  const known = nameSlotsOf.get(word);
  if (known) return known;
  const slots = new Map<string, NameSlot>();
  for (const { name } of word.forms.flatMap((form) => form.slots)) {
    const all = word.forms.flatMap((form) => form.slots).filter((slot) => slot.name === name);
    const kinds = all.flatMap((slot) => slot.kinds);
    if (nameKinds(kinds).length === 0) continue;
    const takesText = kinds.some(({ kind }) => kind === 'text');
    slots.set(name, { kinds: nameKinds(kinds), choices: choicesOf(kinds), takesText });
  }
  nameSlotsOf.set(word, slots);
  return slots;
}

/** Names used in entries that stand in a context, and in all below them. */
export function* namesUsed(entries: readonly BoundEntry[], context: Context): Iterable<NameUse> {
  for (const entry of entries) {
    const word = findWord(entry.word, context);
    if (!word) continue;
    for (const [slot, wanted] of nameSlots(word)) {
      const kinds = entry.word === W.like ? likeKinds(context) : wanted.kinds;
      if (kinds.length === 0) continue;
      for (const value of entry.slots[slot] ?? []) {
        if (value.kind !== 'name' && value.kind !== 'text') continue;
        if (wanted.choices.includes(value.text)) continue;
        // A place may be a text, which names nothing.
        if (value.kind === 'text' && wanted.takesText) continue;
        yield { kinds, value, entry };
      }
    }
    if (entry.body && word.block) yield* namesInBody(entry.body, word.block);
  }
}

function* namesInBody(body: BoundBody, context: Context): Iterable<NameUse> {
  yield* namesUsed(body.entries, context);
  if (!body.table) return;
  const columns = tableOf(context)?.columns ?? [];
  const kindsOf = body.table.headings.map((heading) =>
    heading.kind === 'word'
      ? nameKinds(columns.find(({ word }) => word === heading.word)?.kinds ?? [])
      : [],
  );
  if (kindsOf.every((kinds) => kinds.length === 0)) return;
  for (const row of body.table.rows) {
    for (const [column, value] of row.cells.entries()) {
      const kinds = kindsOf[column] ?? [];
      if (kinds.length === 0 || (value.kind !== 'name' && value.kind !== 'text')) continue;
      yield { kinds, value };
    }
  }
}

/** Kinds of names that a slot refers to; none where it declares one. */
export function nameKinds(kinds: readonly SlotKind[]): readonly NameKind[] {
  return kinds.flatMap((kind) => (kind.kind === 'name' && !kind.declares ? kind.of : []));
}

/** `like` names another of the block's own kind. */
function likeKinds(context: Context): readonly NameKind[] {
  switch (context) {
    case 'file':
    case 'plan':
    case 'doubts':
    case 'changes':
    case 'links':
    case 'channels':
    case 'readings':
    case 'events':
    case 'inspection':
    case 'work':
    case 'withdraw':
    case 'concession':
    case 'split':
    case 'out':
      return [];
    default:
      return [context];
  }
}
