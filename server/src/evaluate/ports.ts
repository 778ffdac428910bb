/** The ports at which the light of a fibre leaves an object, as its plan has it. */
import type { LinkModel } from '../model/types.ts';
import { placeOut } from './maps-along.ts';

/**
 * At B by the map of the path, undefined where it is not known. `place` is where
 * the link lists the fibre, for those who know it.
 */
export function portAt(
  link: LinkModel,
  end: 'A' | 'B',
  fibre: number,
  place: number = link.fibres.indexOf(fibre),
): string | undefined {
  if (place < 0) return undefined;
  const way = link.ways.find((one) => one.fibre === fibre);
  if (way) return end === 'B' ? way.name : link.from[0];
  const n = link.fibres.length;
  if (end === 'A') return portOf(link.from, place, n);
  const out = placeOut(link, place + 1);
  // All places of the only port there is are at that port.
  if (out === undefined) return link.to.length === 1 ? link.to[0] : undefined;
  return portOf(link.to, out - 1, n);
}

/** Ports may be fewer than fibres: each then holds as many consecutive ones as fit. */
export function portOf(
  ports: readonly string[],
  place: number,
  fibres: number,
): string | undefined {
  if (ports.length === 0) return undefined;
  const each = Math.max(1, Math.floor(fibres / ports.length));
  return ports[Math.floor(place / each)];
}
