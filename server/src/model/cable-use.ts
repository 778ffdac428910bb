/** Which fibres of which cables a link takes. */
import type { LinkModel, Place } from './types.ts';

/** One fibre of a cable that a link takes. */
export interface CableUse {
  readonly cable: string;
  readonly fibre: number;
  /** The segment that takes it. */
  readonly place: Place;
}

/** Fibres that a link takes itself; a channel takes none: its links do. */
export function cableUse(link: LinkModel): readonly CableUse[] {
  return link.path.flatMap((element) =>
    element.kind === 'segment' && element.cable
      ? (element.cableFibres ?? []).map((fibre) => ({
          cable: element.cable!.name,
          fibre,
          place: element.place,
        }))
      : [],
  );
}
