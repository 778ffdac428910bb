/**
 * The paths that light of a service takes: what an object is, for the fibres that
 * take it, and what lies outside for those same fibres.
 */
import type { Carried, Way } from '../model/types.ts';
import type { Context } from './context.ts';
import { type Outside, outsidePieces } from './limits.ts';
import { pathsOf } from './living.ts';
import type { Piece } from './path.ts';

export interface LightPath {
  /** Of the way or of the repaired path that these fibres take. */
  readonly context: Context;
  /** The object's own pieces, then what lies outside. */
  readonly pieces: readonly Piece[];
  /** Fibres that take it; none of a way round a ring, which is no fibre’s. */
  readonly fibres: readonly number[];
}

/**
 * One for each path with what lies outside of it; none for fibres that are dead
 * or are not given to the service. Of a tree or a ring it is asked way by way,
 * with the context of that way.
 */
export function lightPathsOf(
  context: Context,
  carried: Carried,
  way: Way | undefined,
): readonly LightPath[] {
  const own = way
    ? [{ context, fibres: way.fibre === undefined ? [] : [way.fibre] }]
    : pathsOf(context, carried.fibres ?? context.link.fibres);
  return own.flatMap((path) =>
    outsideOn(path.context, carried, way).flatMap((outside): LightPath[] => {
      const fibres = path.fibres.filter((fibre) => outside.fibres?.has(fibre) ?? true);
      if (!way && fibres.length === 0) return [];
      const pieces = [...path.context.path.pieces, ...outside.pieces];
      return [{ context: path.context, pieces, fibres }];
    }),
  );
}

/** What lies outside of the object's path; of a tree what does for the end of that way, if it is given to the service. */
export function outsideOn(
  { input, link, path }: Context,
  carried: Carried,
  way: Way | undefined,
): readonly Outside[] {
  const end = way?.fibre;
  const all = outsidePieces(carried, link, path, input.channels ?? []);
  if (end === undefined) return all;
  if (carried.fibres?.includes(end) === false) return [];
  return all.filter(({ fibres }) => fibres?.has(end) ?? true);
}
