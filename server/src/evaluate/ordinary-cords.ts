/**
 * What cords from stock may lose more than the reference-grade cords that a link
 * was read with: at each end an ordinary pair instead of one with a reference
 * plug. It judges nothing: it says whether a foretold loss would hold with any
 * cord, or for this mating only.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  type MicroDb,
  type Picometres,
  subtractDb,
} from '../../../grammar/src/quantity/index.ts';
import type { LimitsSet } from '../model/types.ts';
import type { Arrangement } from './arrangement.ts';
import type { Context } from './context.ts';
import { setFigures } from './figures.ts';

/** Undefined where no edition at hand has both figures, or where the reading was no such. */
export function ordinaryCords(
  { link, path }: Context,
  arrangement: Arrangement,
  wavelength: Picometres,
): ExactDb | undefined {
  const graded = arrangement.method === 'one-cord' && arrangement.grade === 'reference-grade';
  if (link.kind !== 'link' || !graded) return undefined;
  const sets: readonly LimitsSet[] = [...link.terms.limits, ...link.terms.compare];
  const more = (['A', 'B'] as const).flatMap((side): readonly ExactDb[] => {
    const end = path.ends[side];
    if (end.kind !== 'socket' || !arrangement.mates[side]) return [];
    for (const set of sets) {
      const figures = setFigures(set, wavelength, link.mode);
      const granted = figures.pair(end.name, end.type, 'end');
      const ordinary = figures.pair(end.name, end.type, 'installed');
      if (!granted || !ordinary) continue;
      const difference = subtractDb(
        exactDb(ordinary.each as MicroDb),
        exactDb(granted.each as MicroDb),
      );
      return difference > 0n ? [difference] : [];
    }
    return [];
  });
  return more.length > 0 ? addDb(...more) : undefined;
}
