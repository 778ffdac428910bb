/** Where a fibre of a cable lies and what colour it has, by the order of colours that the cable names. */
import { fibresPerTube } from './cable.ts';
import type { Cable } from './types.ts';

export interface FibreInCable {
  readonly fibre: number;
  /** Undefined where the cable does not say in how many tubes its fibres lie. */
  readonly tube?: number;
  /** Its number in the tube, or in the cable where no tubes are said. */
  readonly position: number;
  /** Undefined where the cable names no order, or the order no colour so far on. */
  readonly tubeColour?: string;
  readonly colour?: string;
}

/** Fibre n lies in tube ⌈n ÷ per tube⌉. */
export function fibreInCable(cable: Cable, fibre: number): FibreInCable {
  const perTube = fibresPerTube(cable);
  const tube = perTube === undefined ? undefined : Math.ceil(fibre / perTube);
  const position = perTube === undefined ? fibre : fibre - ((tube ?? 1) - 1) * perTube;
  return {
    fibre,
    tube,
    position,
    tubeColour: tube === undefined ? undefined : cable.colours?.tubes[tube - 1],
    colour: cable.colours?.fibres[position - 1],
  };
}

/** `tube 5 (slate), fibre 1 in it (blue)`; colours only where they are known. */
export function fibreInWords({ tube, position, tubeColour, colour }: FibreInCable): string {
  const named = (name: string | undefined) => (name === undefined ? '' : ` (${name})`);
  return tube === undefined
    ? `fibre ${position}${named(colour)}`
    : `tube ${tube}${named(tubeColour)}, fibre ${position} in it${named(colour)}`;
}
