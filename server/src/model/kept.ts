/**
 * What was built from a declaration, kept as long as everything it read is
 * still the same. No list of dependents is needed: an answer is asked again and
 * compared, and on a hit the reads are reported as if they had been made.
 */
import type { Declaration, Namespace } from './declaration.ts';
import { type Names, type ReadKind, type Scope, scopeOf } from './scope.ts';

interface Read {
  readonly kind: ReadKind;
  readonly name: string;
  /** Asks again; tells the reader. */
  readonly ask: (names: Names) => readonly unknown[] | undefined;
  readonly answer: readonly unknown[] | undefined;
}

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
    const reads: Read[] = [];
    const model = build(declaration, scopeOf(recorded(scope.names, reads), scope.read));
    kept.set(declaration, { model, reads });
    return model;
  };
}

function stillHolds(reads: readonly Read[], scope: Scope): boolean {
  for (const read of reads) {
    scope.read(read.kind, read.name);
    const now = read.ask(scope.names);
    // A list of all names is never compared: it is asked for only beside a mistake.
    if (!now || !read.answer || now.length !== read.answer.length) return false;
    for (let index = 0; index < now.length; index++) {
      if (now[index] !== read.answer[index]) return false;
    }
  }
  return true;
}

function recorded(names: Names, reads: Read[]): Names {
  const record = <Answer extends readonly unknown[]>(
    kind: ReadKind,
    name: string,
    answer: Answer,
    ask: Read['ask'],
  ): Answer => {
    reads.push({ kind, name, answer: ask === never ? undefined : identities(answer), ask });
    return answer;
  };
  return {
    declared: (namespace, name) =>
      record(namespace, name, names.declared(namespace, name), (asked) =>
        asked.declared(namespace, name),
      ),
    former: (namespace, name) =>
      record('former', name, names.former(namespace, name), (asked) =>
        asked.former(namespace, name),
      ),
    plan: (field) =>
      record('plan', field, names.plan(field), (asked) => identities(asked.plan(field))),
    evidence: (object) =>
      record('evidence', object, names.evidence(object), (asked) => asked.evidence(object)),
    names: (namespace: Namespace) => {
      reads.push({ kind: 'names', name: namespace, answer: undefined, ask: never });
      return names.names(namespace);
    },
  };
}

/** Plan entries are wrapped with their block; the entry itself tells whether it is the same. */
function identities(answer: readonly unknown[]): readonly unknown[] {
  return answer.map((item) =>
    typeof item === 'object' && item !== null && 'entry' in item ? item.entry : item,
  );
}

const never = (): undefined => undefined;
