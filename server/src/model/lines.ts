/** Lines of a declaration by their word, and what every declaration and every figure has. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { PlacedEntry } from './scope.ts';
import type { Basis, Declared, Figure } from './types.ts';
import { nameOf } from './values.ts';

/** What every declaration has. The edition is its own or the one it is like. */
export function declaredOf(declaration: Declaration, lines: readonly PlacedEntry[]): Declared {
  const misses = firstOf(lines, W.like) !== undefined && lines.every(({ taken }) => !taken);
  return {
    name: declaration.name,
    place: declaration.place,
    namePlace: declaration.namePlace,
    origin: declaration.origin,
    edition: nameOf(firstOf(lines, W.edition)?.entry.slots.title),
    basis: allOf(lines, W.basis).flatMap(basisOf),
    notes: allOf(lines, W.note).flatMap(({ entry }) => nameOf(entry.slots.text) ?? []),
    ...((misses || declaration.misread.length > 0) && { unread: true as const }),
  };
}

function basisOf({ entry }: PlacedEntry): Basis[] {
  const text = nameOf(entry.slots.source);
  if (text === undefined) return [];
  return [{ text, trust: nameOf(entry.slots.trust) as Basis['trust'] }];
}

export function allOf(lines: readonly PlacedEntry[], word: string): PlacedEntry[] {
  return lines.filter(({ entry }) => entry.word === word);
}

export function firstOf(lines: readonly PlacedEntry[], word: string): PlacedEntry | undefined {
  return lines.find(({ entry }) => entry.word === word);
}

/** `min`, `typ`, `max` and `sigma` of an entry. */
export function figureOf<Q>(
  { entry }: PlacedEntry,
  read: (values: PlacedEntry['entry']['slots'][string] | undefined) => Q | undefined,
): Figure<Q> {
  return {
    min: read(entry.slots[K.min]),
    typ: read(entry.slots[K.typ]),
    max: read(entry.slots[K.max]),
    sigma: read(entry.slots[K.sigma]),
  };
}
