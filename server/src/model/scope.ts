/**
 * Names across the files of one plan, with the library beneath. Reads are
 * reported, so that whoever keeps the index knows which links to build again
 * when a name, a plan field or the evidence about an object changes.
 */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import type { Declaration, DeclaredKind, EvidencePart, Namespace } from './declaration.ts';
import { answerOf, type Read, type ReadLog } from './kept.ts';
import type { BlockId, Place, Trust } from './types.ts';

/** An entry with the block it stands in. */
export interface PlacedEntry {
  readonly block: BlockId;
  readonly entry: BoundEntry;
  /** Values that fill holes of the entry, with the block each was written in. */
  readonly filled?: ReadonlyMap<Value, BlockId>;
  /** Of the `basis` that stands for it. */
  readonly trust?: Trust;
  /** The line that took it over from another declaration, by which it holds here. */
  readonly taken?: Place;
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
  /** Tells the reader, and what is being built, of a read. */
  report(read: Read): void;
  /** Reads of what is being built now. */
  log: ReadLog | undefined;
}

export function namespaceOf(kind: DeclaredKind | 'object'): Namespace {
  return kind === 'link' || kind === 'channel' || kind === 'ring' || kind === 'cable'
    ? 'object'
    : kind;
}

/** A scope over an index. `read` is told every read, also those whose answer was kept. */
export function scopeOf(
  names: Names,
  read: (kind: ReadKind, name: string) => void = () => {},
): Scope {
  return new ReportingScope(names, read);
}

class ReportingScope implements Scope {
  readonly names: Names;
  log: ReadLog | undefined;
  readonly #read: (kind: ReadKind, name: string) => void;

  constructor(names: Names, read: (kind: ReadKind, name: string) => void) {
    this.names = names;
    this.#read = read;
  }

  report(read: Read): void {
    this.#read(read.kind, read.name);
    this.log?.set(`${read.kind} ${read.namespace ?? ''} ${read.name}`, read);
  }

  find(kind: DeclaredKind | 'object', name: string): Declaration | undefined {
    const namespace = namespaceOf(kind);
    const fits = (declaration: Declaration) => kind === 'object' || declaration.kind === kind;
    const declared = this.#declared(namespace, name).find(fits);
    if (declared) return declared;
    const former = this.names.former(namespace, name);
    this.report({ kind: 'former', name, namespace, answer: answerOf(former) });
    return former.find(fits);
  }

  beneath(declaration: Declaration): Declaration | undefined {
    const namespace = namespaceOf(declaration.kind);
    const all = this.#declared(namespace, declaration.name);
    if (declaration.origin === 'library') return undefined;
    return all.find(({ origin, kind }) => origin === 'library' && kind === declaration.kind);
  }

  plan(field: string): readonly PlacedEntry[] {
    const entries = this.names.plan(field);
    this.report({ kind: 'plan', name: field, answer: answerOf(entries) });
    return entries;
  }

  evidence(object: string): readonly EvidencePart[] {
    const parts = this.names.evidence(object);
    this.report({ kind: 'evidence', name: object, answer: answerOf(parts) });
    return parts;
  }

  nearest(kind: DeclaredKind | 'object', name: string): string | undefined {
    const namespace = namespaceOf(kind);
    this.report({ kind: 'names', name: namespace, answer: undefined });
    return nearestSpelling(name, this.names.names(namespace));
  }

  #declared(namespace: Namespace, name: string): readonly Declaration[] {
    const declared = this.names.declared(namespace, name);
    this.report({ kind: namespace, name, answer: answerOf(declared) });
    return declared;
  }
}

/**
 * The candidate with the fewest changed letters, if that is at most a third of
 * its length (and at least one change is allowed); else the shortest that goes
 * on where the name ends, as a class or a grade does. The first of equals in
 * alphabetical order.
 */
export function nearestSpelling(name: string, candidates: Iterable<string>): string | undefined {
  const allowed = Math.max(1, Math.floor(name.length / 3));
  const lower = name.toLowerCase();
  let best: string | undefined;
  let longer: string | undefined;
  let least = allowed + 1;
  for (const candidate of candidates) {
    if (goesOn(candidate.toLowerCase(), lower) && isBefore(candidate, longer)) longer = candidate;
    if (Math.abs(candidate.length - name.length) >= least + 1) continue;
    const distance = changes(lower, candidate.toLowerCase(), least);
    if (distance < least || (distance === least && best !== undefined && candidate < best)) {
      least = distance;
      best = candidate;
    }
  }
  return best ?? longer;
}

/** Whether a name begins with another of three letters and more, and a sign stands behind it. */
function goesOn(candidate: string, name: string): boolean {
  return (
    name.length >= 3 &&
    candidate.startsWith(name) &&
    /^[^\p{L}\p{N}]/u.test(candidate.slice(name.length))
  );
}

/** The shorter, or of equally long the first by letters. */
function isBefore(candidate: string, other: string | undefined): boolean {
  if (other === undefined || candidate.length < other.length) return true;
  return candidate.length === other.length && candidate < other;
}

/**
 * Letters to insert, remove or replace, and neighbours that changed places, counted
 * up to `limit`: the restricted edit distance of F. J. Damerau, "A technique for
 * computer detection and correction of spelling errors" (1964).
 */
function changes(a: string, b: string, limit: number): number {
  let before: readonly number[] = [];
  let above: readonly number[] = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    let smallest = row;
    for (let column = 1; column <= b.length; column++) {
      const replaced = above[column - 1]! + (a[row - 1] === b[column - 1] ? 0 : 1);
      const swapped = a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      const value = Math.min(
        replaced,
        above[column]! + 1,
        current[column - 1]! + 1,
        swapped ? before[column - 2]! + 1 : Infinity,
      );
      current.push(value);
      smallest = Math.min(smallest, value);
    }
    // A later swap goes on from the row above.
    if (smallest > limit && Math.min(...above) >= limit) return limit + 1;
    [before, above] = [above, current];
  }
  return above[b.length]!;
}
