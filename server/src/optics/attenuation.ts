/** Loss along a fibre and what follows from it. */
import {
  type ExactDb,
  fibreLoss,
  type Micrometres,
  micrometres,
  type RatePerKm,
  subtractDb,
} from '../../../grammar/src/quantity/index.ts';

/**
 * The longest fibre whose loss and a fixed loss stay within a budget:
 * L = (budget − fixed) ÷ α, rounded down to a micrometre. Zero where the fixed
 * loss alone is over; undefined for a rate that is not positive.
 * Source: the length formula of equipment makers' manuals, e.g. (Tx − Rx − joints − reserve) ÷ dB/km.
 */
export function longestFibre(
  budget: ExactDb,
  fixed: ExactDb,
  rate: RatePerKm,
): Micrometres | undefined {
  if (rate <= 0) return undefined;
  const left = subtractDb(budget, fixed);
  if (left <= 0n) return micrometres(0);
  const longest = left / BigInt(rate);
  return longest > BigInt(Number.MAX_SAFE_INTEGER) ? undefined : micrometres(Number(longest));
}

/**
 * Attenuation per kilometre from a measured loss: α = loss ÷ L, rounded to a
 * micro-decibel per kilometre. Undefined for no length.
 * Source: cut-back and insertion-loss definitions, IEC 60793-1-40 (from memory).
 */
export function rateOver(loss: ExactDb, length: Micrometres): RatePerKm | undefined {
  if (length <= 0) return undefined;
  const doubled = (2n * loss) / BigInt(length);
  const rounded = doubled >= 0n ? (doubled + 1n) / 2n : (doubled - 1n) / 2n;
  return Number(rounded) as RatePerKm;
}

/**
 * Loss of the longer wavelength over the shorter, beyond what the fibre alone
 * explains: (loss at long − loss at short) + Σ (α short − α long)·L. On
 * single-mode fibre a bend lets more of the long wavelength out, so an excess
 * well above repeatability points to one.
 * Source: common practice on published typical attenuation; slope terms are arithmetic.
 */
export function bendExcessOf(short: ExactDb, long: ExactDb, slope: ExactDb): ExactDb {
  return (long - short + slope) as ExactDb;
}

/** Loss of one stretch at the difference of two rates, which may be negative. */
export function slopeLoss(short: RatePerKm, long: RatePerKm, length: Micrometres): ExactDb {
  return fibreLoss((short - long) as RatePerKm, length);
}
