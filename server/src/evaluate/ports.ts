/** The ports at which the light of a fibre leaves an object, as its plan has it. */
import type { LinkModel } from '../model/types.ts';

/** `place` is where the link lists the fibre, for those who know it. */
export function portAt(
  link: LinkModel,
  end: 'A' | 'B',
  fibre: number,
  place: number = link.fibres.indexOf(fibre),
): string | undefined {
  if (place < 0) return undefined;
  const way = link.ways.find((one) => one.fibre === fibre);
  if (way) return end === 'B' ? way.name : link.from[0];
  return portOf(end === 'A' ? link.from : link.to, place, link.fibres.length);
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
