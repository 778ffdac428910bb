/** Builds what a launch is controlled by: mandrels, and bounds of encircled flux. */
import type { Value } from '../../../grammar/src/bound.ts';
import { type Picometres, picometres } from '../../../grammar/src/quantity/index.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { Built } from './finding.ts';
import { keeping } from './kept.ts';
import { entriesOf } from './like.ts';
import { allOf, declaredOf, figureOf, firstOf } from './lines.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type { FluxBound, FluxType, MandrelDiameter, MandrelType, Mode } from './types.ts';
import { nameOf, shareOf, sizeOf, wavelengthOf, wholeOf } from './values.ts';

export const buildMandrel = keeping(
  (declaration: Declaration, scope: Scope): Built<MandrelType> => {
    const { lines, findings } = entriesOf(declaration, scope);
    return {
      model: {
        kind: 'mandrel',
        ...declaredOf(declaration, lines),
        ...coreOf(lines),
        diameters: allOf(lines, W.diameter).flatMap(diameterOf),
        turns: wholeOf(firstOf(lines, W.turns)?.entry.slots.number),
      },
      findings,
    };
  },
);

export const buildFlux = keeping((declaration: Declaration, scope: Scope): Built<FluxType> => {
  const { lines, findings } = entriesOf(declaration, scope);
  return {
    model: {
      kind: 'flux',
      ...declaredOf(declaration, lines),
      ...coreOf(lines),
      bounds: allOf(lines, W.radius).flatMap(boundOf),
    },
    findings,
  };
});

function coreOf(lines: readonly PlacedEntry[]): Pick<MandrelType, 'mode' | 'core'> {
  const mode = firstOf(lines, W.mode)?.entry;
  return {
    mode: mode && (nameOf(mode.slots.mode) as Mode | undefined),
    core: mode && sizeOf(mode.slots[K.core]),
  };
}

function diameterOf({ entry: { slots }, trust }: PlacedEntry): MandrelDiameter[] {
  const diameter = sizeOf(slots.diameter);
  const step = slots.diameter?.[0] && stepOf(slots.diameter[0]);
  if (diameter === undefined || step === undefined) return [];
  return [{ diameter, step, cord: sizeOf(slots[K.cord]), trust }];
}

/** One of the last place that a size is written with: the digits say how exact it is meant. */
function stepOf(value: Value): Picometres | undefined {
  if (value.kind !== 'quantity') return undefined;
  const places = value.digits.split('.')[1]?.length ?? 0;
  return picometres(Number(value.unit.numerator / value.unit.denominator) / 10 ** places);
}

function boundOf(line: PlacedEntry): FluxBound[] {
  const radius = sizeOf(line.entry.slots.radius);
  const wavelength = wavelengthOf(line.entry.slots[K.wavelength]);
  if (radius === undefined || wavelength === undefined) return [];
  return [{ radius, wavelength, ...figureOf(line, shareOf), trust: line.trust }];
}
