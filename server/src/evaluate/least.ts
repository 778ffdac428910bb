/**
 * The least that a light path can lose, which decides whether a receiver is
 * overloaded: fibre and components at their least (none: 0), splitters at
 * theirs, joints and splices at nothing.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  fibreLoss,
  type MicroDb,
  microDb,
  type Picometres,
  type RatePerKm,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import { idealSplit } from '../optics/index.ts';
import { ownLoss, ownRate, splitLoss } from './figures.ts';
import { fibresOf, type Piece } from './path.ts';

export function leastLoss(pieces: readonly Piece[], wavelength: Picometres): ExactDb {
  return addDb(zeroDb, ...pieces.map((piece) => leastOf(piece, wavelength)));
}

/** Fibres that state no least attenuation, and count as nothing lost. */
export function uncountedIn(pieces: readonly Piece[], wavelength: Picometres): readonly string[] {
  const silent = fibresOf(pieces).filter(
    ({ type, length }) => length && ownRate(type, wavelength, 'min', true) === undefined,
  );
  return [...new Set(silent.map(({ name }) => name))];
}

function leastOf(piece: Piece, wavelength: Picometres): ExactDb {
  switch (piece.kind) {
    case 'fibre': {
      const rate = ownRate(piece.type, wavelength, 'min', true)?.each ?? 0;
      return piece.length === undefined ? zeroDb : fibreLoss(rate as RatePerKm, piece.length);
    }
    case 'part':
      return exactDb(microDb(ownLoss(piece.type, piece.type?.loss, wavelength, 'min')?.each ?? 0));
    case 'split':
      return exactDb(leastSplit(piece, wavelength));
    default:
      return zeroDb;
  }
}

/**
 * Of one output: what its maker states, else the even split, 10·log10 N, for
 * what one output has more another has less (conservation of energy). An output
 * of an uneven splitter may have more than its even share: there only what is
 * stated counts, and nothing where nothing is.
 */
function leastSplit(piece: Extract<Piece, { kind: 'split' }>, wavelength: Picometres): MicroDb {
  const { type } = piece;
  const own = splitLoss(piece, wavelength, 'min');
  if (own) return microDb(own.each);
  const even = idealSplit(type?.outputs ?? 1) ?? microDb(0);
  const losses = type?.loss ?? [];
  const uneven = losses.some(
    ({ out, typ, max }) => out !== undefined || (max ?? typ ?? even) < even,
  );
  return uneven ? microDb(0) : even;
}
