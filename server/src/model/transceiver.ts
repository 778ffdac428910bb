/** Builds a transceiver: its wavelength and its two windows of power. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { Built } from './finding.ts';
import { keeping } from './kept.ts';
import { entriesOf } from './like.ts';
import { allOf, declaredOf, firstOf } from './lines.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type { PowerWindow, TransceiverType } from './types.ts';
import { baseOf, lossOf, namesOf, powerOf, wavelengthOf } from './values.ts';

export const buildTransceiver = keeping(
  (declaration: Declaration, scope: Scope): Built<TransceiverType> => {
    const { lines, findings } = entriesOf(declaration, scope);
    const light = firstOf(lines, W.wavelength)?.entry.slots;
    const nominal = wavelengthOf(light?.wavelength);
    return {
      model: {
        kind: 'transceiver',
        ...declaredOf(declaration, lines),
        applications: allOf(lines, W.application).flatMap(({ entry }) =>
          namesOf(entry.slots.application),
        ),
        wavelength:
          nominal === undefined
            ? undefined
            : { nominal, min: wavelengthOf(light?.[K.min]), max: wavelengthOf(light?.[K.max]) },
        output: windowOf(firstOf(lines, W.output)),
        input: windowOf(firstOf(lines, W.input)),
        extinction: lossOf(firstOf(lines, W.extinction)?.entry.slots.ratio),
        damage: powerOf(firstOf(lines, W.damage)?.entry.slots.power),
        penalty: penaltyOf(firstOf(lines, W.penalty)),
        dispersion: baseOf(firstOf(lines, W.dispersion)?.entry.slots[K.max], 'total-dispersion'),
      },
      findings,
    };
  },
);

/** Both ends are asked for by the vocabulary; a window with one end missing is none. */
function windowOf(line: PlacedEntry | undefined): PowerWindow | undefined {
  const min = powerOf(line?.entry.slots[K.min]);
  const max = powerOf(line?.entry.slots[K.max]);
  if (min === undefined || max === undefined) return undefined;
  return { min, max, amplitude: powerOf(line?.entry.slots[K.amplitude]), trust: line?.trust };
}

function penaltyOf(line: PlacedEntry | undefined): TransceiverType['penalty'] {
  const loss = lossOf(line?.entry.slots.loss);
  return loss === undefined ? undefined : { loss, trust: line?.trust };
}
