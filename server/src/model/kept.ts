/**
 * What was built from a declaration, kept as long as everything it read is
 * still the same. No list of dependents is needed: an answer is asked again and
 * compared, and on a hit the reads are reported as if they had been made.
 */
import type { Declaration, Namespace } from './declaration.ts';
import type { Names, PlacedEntry, ReadKind, Scope } from './scope.ts';

/** One thing read, and the answer to it: nothing, one object, or a list of several. */
export interface Read {
  readonly kind: ReadKind;
  readonly name: string;
  /** Namespace of a name had before. */
  readonly namespace?: Namespace;
  readonly answer: object | undefined;
}

/** Reads by what they ask, each once. */
export type ReadLog = Map<string, Read>;

interface Kept<Model> {
  readonly model: Model;
  readonly reads: readonly Read[];
}

/** A function of a declaration and a scope that remembers its last result for each declaration. */
export function keeping<Model>(
  build: (declaration: Declaration, scope: Scope) => Model,
): (declaration: Declaration, scope: Scope) => Model {
  const kept = new WeakMap<Declaration, Kept<Model>>();
  return (declaration, scope) => {
    const before = kept.get(declaration);
    if (before && stillHolds(before.reads, scope)) return before.model;
    const outer = scope.log;
    const log: ReadLog = new Map();
    scope.log = log;
    try {
      const model = build(declaration, scope);
      kept.set(declaration, { model, reads: [...log.values()] });
      return model;
    } finally {
      scope.log = outer;
      if (outer) for (const [key, read] of log) outer.set(key, read);
    }
  };
}

function stillHolds(reads: readonly Read[], scope: Scope): boolean {
  for (const read of reads) {
    scope.report(read);
    // Which names there are is never compared: it is asked for only beside a mistake.
    if (read.kind === 'names' || !sameAnswer(read.answer, askAgain(read, scope.names)))
      return false;
  }
  return true;
}

function askAgain({ kind, name, namespace }: Read, names: Names): readonly object[] {
  switch (kind) {
    case 'plan':
      return names.plan(name);
    case 'evidence':
      return names.evidence(name);
    case 'former':
      return namespace ? names.former(namespace, name) : [];
    case 'names':
      return [];
    default:
      return names.declared(kind, name);
  }
}

/** Most answers hold one object, or none: no list is kept for them. */
export function answerOf(list: readonly object[]): object | undefined {
  if (list.length <= 1) return list[0] && identityOf(list[0]);
  return list.map(identityOf);
}

function sameAnswer(before: object | undefined, list: readonly object[]): boolean {
  if (list.length <= 1) return before === (list[0] && identityOf(list[0]));
  return (
    Array.isArray(before) &&
    before.length === list.length &&
    list.every((item, index) => identityOf(item) === before[index])
  );
}

/** Plan entries come wrapped with their block: the entry itself tells whether it is the same. */
function identityOf(item: object): object {
  return 'entry' in item ? (item as PlacedEntry).entry : item;
}
