/** What makes one sum another: the terms of it that differ, and in what. */
import type { Term } from '../evaluate/result.ts';
import type { Place } from '../model/types.ts';

export interface TermMove {
  /** `figure`: another value of the same thing; `length`, `count`: of it more or less; `other`: there on one side only. */
  readonly in: 'figure' | 'length' | 'count' | 'other';
  readonly role: Term['role'];
  /** How much of the sum it moves, in femto-decibels without a sign. */
  readonly weight: bigint;
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
  const common = {
    role: one.role,
    ...(was?.place && { before: was.place }),
    ...(is?.place && { after: is.place }),
  };
  if (!was || !is) {
    yield { in: 'other', weight: size(one.total), ...common };
    return;
  }
  if (was.each !== is.each || was.source !== is.source) {
    yield { in: 'figure', weight: size(amount(is.each - was.each, is)), ...common };
  }
  if (was.length !== is.length) {
    const more = (is.length ?? 0) - (was.length ?? 0);
    yield { in: 'length', weight: size(amount(was.each, { ...is, length: more })), ...common };
  }
  if (was.count !== is.count) {
    const more = { count: is.count - was.count };
    yield { in: 'count', weight: size(amount(was.each, more)), ...common };
  }
}

/** A rate per kilometre times micrometres, or a loss times a count. */
function amount(each: number, { count, length }: { count: number; length?: number }): bigint {
  return length === undefined
    ? BigInt(each) * BigInt(count) * 1_000_000_000n
    : BigInt(each) * BigInt(length);
}

const size = (amount: bigint) => (amount < 0n ? -amount : amount);
