/**
 * The expected set: what must be read for an object to be accepted. A matching
 * number of rows proves nothing, so keys are compared, not totals.
 */
import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import type { Direction, LinkModel } from '../model/types.ts';
import { sameWindow } from './thresholds.ts';

/** Fibre, wavelength and direction of a loss reading. */
export interface Key {
  readonly fibre: number;
  readonly wavelength: Picometres;
  readonly direction: Direction;
}

/** One text per key, for maps and sets. */
export function keyText(
  fibre: number,
  wavelength: Picometres,
  direction: Direction | undefined,
): string {
  return `${fibre} ${wavelength} ${direction ?? ''}`;
}

/**
 * Every fibre that ends at the object, lit or dark, times its wavelengths and
 * directions, less fibres declared dead. Order: fibre as the link lists them,
 * wavelength as `measure` lists them, A>B before B>A.
 */
export function expectedKeys(link: LinkModel): readonly Key[] {
  const dead = new Set(link.dead.map((entry) => entry.fibre));
  const perFibre = link.terms.measure.flatMap((wavelength) =>
    directionsAt(link, wavelength).map((direction) => ({ wavelength, direction })),
  );
  return link.fibres
    .filter((fibre) => !dead.has(fibre))
    .flatMap((fibre) => perFibre.map((key) => ({ fibre, ...key })));
}

/** A wavelength that every application carried sends in one direction only is wanted in that direction. */
function directionsAt(link: LinkModel, wavelength: Picometres): readonly Direction[] {
  const sent = link.terms.carries
    .flatMap((carried) => carried.application?.wavelengths ?? [])
    .filter((light) => sameWindow(light.wavelength, wavelength));
  const wanted = inOrder(link.terms.directions.wanted);
  if (sent.length === 0 || sent.some((light) => light.direction === undefined)) return wanted;
  return inOrder(sent.flatMap((light) => light.direction ?? []));
}

function inOrder(directions: readonly Direction[]): readonly Direction[] {
  return (['A>B', 'B>A'] as const).filter((direction) => directions.includes(direction));
}
