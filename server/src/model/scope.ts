/**
 * Names across the files of one plan, with the library beneath. Reads are
 * reported, so that whoever keeps the index knows which links to build again
 * when a name, a plan field or the evidence about an object changes.
 */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import type { Declaration, DeclaredKind, EvidencePart, Namespace } from './declaration.ts';
import type { BlockId } from './types.ts';

/** An entry with the block it stands in. */
export interface PlacedEntry {
  readonly block: BlockId;
  readonly entry: BoundEntry;
  /** Values that fill holes of the entry, with the block each was written in. */
  readonly filled?: ReadonlyMap<Value, BlockId>;
}

/**
 * What was read: a name of a namespace, a field of the plan, the evidence about
 * an object, who had a name before, or which names a namespace has at all
 * (asked only for the nearest spelling of an unknown one; `name` is the
 * namespace).
 */
export type ReadKind = Namespace | 'plan' | 'evidence' | 'former' | 'names';

/**
 * The index that the project keeps for one plan. Answers are compared by
 * identity: an answer that did not change must be the same object (or hold the
 * same objects in the same order, for lists).
 */
export interface Names {
  /** All of that name: those of the plan in order of the text, then the library's. Empty if there is none. */
  declared(namespace: Namespace, name: string): readonly Declaration[];
  /** Declarations that say they had this name before. */
  former(namespace: Namespace, name: string): readonly Declaration[];
  /** Entries of the `plan` block with that word, in order. */
  plan(field: string): readonly PlacedEntry[];
  /** In order of the text. */
  evidence(object: string): readonly EvidencePart[];
  /** Every name of a namespace. */
  names(namespace: Namespace): Iterable<string>;
}

export interface Scope {
  /** The nearest declaration of that kind, by its name or by one it had before. */
  find(kind: DeclaredKind | 'object', name: string): Declaration | undefined;
  /** What a declaration shadows: what `like` its own name means. */
  beneath(declaration: Declaration): Declaration | undefined;
  plan(field: string): readonly PlacedEntry[];
  evidence(object: string): readonly EvidencePart[];
  /** The known name that is spelt nearest to an unknown one, if any is near. */
  nearest(kind: DeclaredKind | 'object', name: string): string | undefined;
  readonly names: Names;
  readonly read: (kind: ReadKind, name: string) => void;
}

export function namespaceOf(kind: DeclaredKind | 'object'): Namespace {
  return kind === 'link' || kind === 'channel' || kind === 'ring' || kind === 'cable'
    ? 'object'
    : kind;
}

/** A scope over an index. `read` is told every read, also those whose answer came from a cache. */
export function scopeOf(
  names: Names,
  read: (kind: ReadKind, name: string) => void = () => {},
): Scope {
  const find = (kind: DeclaredKind | 'object', name: string): Declaration | undefined => {
    const namespace = namespaceOf(kind);
    const fits = (declaration: Declaration) => kind === 'object' || declaration.kind === kind;
    read(namespace, name);
    const declared = names.declared(namespace, name).find(fits);
    if (declared) return declared;
    read('former', name);
    return names.former(namespace, name).find(fits);
  };
  return {
    names,
    read,
    find,
    beneath(declaration) {
      const namespace = namespaceOf(declaration.kind);
      read(namespace, declaration.name);
      if (declaration.origin === 'library') return undefined;
      return names
        .declared(namespace, declaration.name)
        .find((other) => other.origin === 'library' && other.kind === declaration.kind);
    },
    plan(field) {
      read('plan', field);
      return names.plan(field);
    },
    evidence(object) {
      read('evidence', object);
      return names.evidence(object);
    },
    nearest(kind, name) {
      const namespace = namespaceOf(kind);
      read('names', namespace);
      return nearestSpelling(name, names.names(namespace));
    },
  };
}

/**
 * The candidate with the fewest changed letters, if that is at most a third of
 * its length (and at least one change is allowed); the first of equals in
 * alphabetical order.
 */
export function nearestSpelling(name: string, candidates: Iterable<string>): string | undefined {
  const allowed = Math.max(1, Math.floor(name.length / 3));
  const lower = name.toLowerCase();
  let best: string | undefined;
  let least = allowed + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - name.length) >= least + 1) continue;
    const distance = changes(lower, candidate.toLowerCase(), least);
    if (distance < least || (distance === least && best !== undefined && candidate < best)) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** Letters to insert, remove or replace, counted up to `limit`. */
function changes(a: string, b: string, limit: number): number {
  let above = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    let smallest = row;
    for (let column = 1; column <= b.length; column++) {
      const replaced = above[column - 1]! + (a[row - 1] === b[column - 1] ? 0 : 1);
      const value = Math.min(replaced, above[column]! + 1, current[column - 1]! + 1);
      current.push(value);
      smallest = Math.min(smallest, value);
    }
    if (smallest > limit) return limit + 1;
    above = current;
  }
  return above[b.length]!;
}
