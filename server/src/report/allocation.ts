/**
 * Which part of a sum belongs to which element of a path: a sum counts parts
 * of a kind together, a drawing shows each where it stands.
 */
import {
  type ExactDb,
  exactDb,
  fibreLoss,
  type Micrometres,
  microDb,
  type RatePerKm,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { Term } from '../evaluate/result.ts';

interface Wanted {
  readonly roles: readonly Term['role'][];
  readonly name: string;
  readonly length?: Micrometres;
}

export interface Allocation {
  /** Share of the element, undefined where the sum has none for it. */
  take(wanted: Wanted): ExactDb | undefined;
  /** What is in the sum and at no element, if it comes to anything: pairs in the reference, cords taken away. */
  rest(): readonly { readonly what: string; readonly total: ExactDb }[];
}

export function allocate(terms: readonly Term[]): Allocation {
  const pool = terms.map((term) => ({
    term,
    given: zeroDb as ExactDb,
    left: Math.abs(term.count),
  }));
  return {
    take({ roles, name, length }) {
      const fits = pool.filter(
        ({ term, left }) =>
          roles.includes(term.role) &&
          (term.count > 0 || term.role === 'reference-pair') &&
          (length === undefined ? left > 0 : term.length !== undefined),
      );
      const named = fits.find(({ term }) => term.what.includes(name) || term.source.includes(name));
      const from = length === undefined ? (named ?? fits[0]) : named;
      if (!from) return undefined;
      const share =
        length === undefined
          ? exactDb(microDb(from.term.count < 0 ? -from.term.each : from.term.each))
          : fibreLoss(from.term.each as RatePerKm, length);
      if (length === undefined) from.left -= 1;
      from.given = (from.given + share) as ExactDb;
      return share;
    },
    rest() {
      const left = pool.flatMap(({ term, given }) => {
        const total = (term.total - given) as ExactDb;
        return total === 0n ? [] : [{ what: term.what, total }];
      });
      // End pairs that the reference holds in full take each other away.
      return left.reduce((sum, { total }) => sum + total, 0n) === 0n ? [] : left;
    },
  };
}
