/** What makes one sum another: the terms of it that differ, and in what. */
import type { Term } from '../evaluate/result.ts';
import type { Place } from '../model/types.ts';

export interface TermMove {
  /** `figure`: another value of the same thing; `length`, `count`: of it more or less; `other`: there on one side only. */
  readonly in: 'figure' | 'length' | 'count' | 'other';
  readonly role: Term['role'];
  /** Where its figure stands in the old text, and in the new one. */
  readonly before?: Place;
  readonly after?: Place;
}

/** Terms are the same one by what they are of; of several alike, in their order. */
export function termMoves(before: readonly Term[], after: readonly Term[]): readonly TermMove[] {
  const old = byThing(before);
  const now = byThing(after);
  const moves: TermMove[] = [];
  for (const thing of new Set([...old.keys(), ...now.keys()])) {
    const [was, is] = [old.get(thing) ?? [], now.get(thing) ?? []];
    for (let index = 0; index < Math.max(was.length, is.length); index++) {
      moves.push(...movesOf(was[index], is[index]));
    }
  }
  return moves;
}

function byThing(terms: readonly Term[]): ReadonlyMap<string, readonly Term[]> {
  const found = new Map<string, Term[]>();
  for (const term of terms) {
    const thing = `${term.role} ${term.what}`;
    const others = found.get(thing);
    if (others) others.push(term);
    else found.set(thing, [term]);
  }
  return found;
}

function* movesOf(was: Term | undefined, is: Term | undefined): Iterable<TermMove> {
  const one = is ?? was;
  if (!one) return;
  const { role } = one;
  const places = {
    ...(was?.place && { before: was.place }),
    ...(is?.place && { after: is.place }),
  };
  if (!was || !is) {
    yield { in: 'other', role, ...places };
    return;
  }
  if (was.each !== is.each || was.source !== is.source) yield { in: 'figure', role, ...places };
  if (was.length !== is.length) yield { in: 'length', role, ...places };
  if (was.count !== is.count) yield { in: 'count', role, ...places };
}
