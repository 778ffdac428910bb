/** Decibels and the ratios of power they stand for. */
import {
  type MicroDb,
  type MicroDbm,
  microDbm,
  roundToMicroDb,
} from '../../../grammar/src/quantity/index.ts';

/**
 * Loss of a ratio of two powers in the same unit: 10·log10(in ÷ out), rounded
 * once to a micro-decibel. Undefined unless both are positive.
 * Source: definition of the decibel, ISO 80000-3 and IEC 60027-3.
 */
export function lossOfRatio(powerIn: number, powerOut: number): MicroDb | undefined {
  if (!(powerIn > 0) || !(powerOut > 0)) return undefined;
  return roundToMicroDb(10 * Math.log10(powerIn / powerOut));
}

/** Share of the power that is left after a loss: 10^(−loss ÷ 10). Source: definition of the decibel. */
export function shareLeft(loss: MicroDb): number {
  return 10 ** (-loss / 1e7);
}

/** Microwatts of an absolute power: 1000·10^(dBm ÷ 10). Source: definition of dBm, one milliwatt at 0 dBm. */
export function microwatts(power: MicroDbm): number {
  return 1000 * 10 ** (power / 1e7);
}

/**
 * Optical modulation amplitude of light with an average power and a ratio r of
 * bright to dark: P1 − P0 = 2·P·(r − 1) ÷ (r + 1), as a level. Undefined where
 * nothing is modulated.
 * Source: definition of IEEE 802.3 clause 52 and of extinction ratio, from memory.
 */
export function modulationAmplitude(average: MicroDbm, extinction: MicroDb): MicroDbm | undefined {
  const ratio = 10 ** (extinction / 1e7);
  if (ratio <= 1) return undefined;
  const gain = roundToMicroDb(10 * Math.log10((2 * (ratio - 1)) / (ratio + 1)));
  return microDbm(average + gain);
}

/** Loss of an even split over n outputs with nothing wasted: 10·log10(n). Source: conservation of energy. */
export function idealSplit(outputs: number): MicroDb | undefined {
  return outputs >= 1 ? roundToMicroDb(10 * Math.log10(outputs)) : undefined;
}
