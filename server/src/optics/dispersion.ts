/** Chromatic dispersion of single-mode fibre and what it adds up to along a path. */
import type { Micrometres, Picometres } from '../../../grammar/src/quantity/index.ts';

/** Millionths of a ps/(nm·km), at least and at most; negative below the wavelength of no dispersion. */
export interface DispersionBounds {
  readonly least: number;
  readonly most: number;
}

/**
 * D(λ) = S0 ÷ 4 · (λ − λ0⁴ ÷ λ³), in millionths of a ps/(nm·km), from the slope at
 * λ0 in millionths of a ps/(nm²·km). Rounded to a whole millionth.
 * Source: three-term fit of ITU-T G.652 (from memory, and textbooks of fibre optics).
 */
export function dispersionAt(wavelength: Picometres, zero: Picometres, slope: number): number {
  const [at, none] = [wavelength / 1000, zero / 1000];
  return Math.round((slope / 4) * (at - none ** 4 / at ** 3));
}

/**
 * Bounds over a band of light and a band of zeros. D rises with the wavelength
 * and falls with the zero, so the greatest is that of the longest light and the
 * shortest zero, the least the other way round; both at the greatest slope.
 */
export function dispersionBounds(
  light: { readonly min: Picometres; readonly max: Picometres },
  zero: { readonly min: Picometres; readonly max: Picometres },
  slope: number,
): DispersionBounds {
  return {
    least: dispersionAt(light.min, zero.max, slope),
    most: dispersionAt(light.max, zero.min, slope),
  };
}

/** Along a length: millionths of a ps/nm, rounded away from zero to a whole one. */
export function dispersionAlong(rate: number, length: Micrometres): number {
  const product = BigInt(Math.round(rate)) * BigInt(length);
  const [whole, rest] = [product / 1_000_000_000n, product % 1_000_000_000n];
  return Number(whole) + Math.sign(Number(rest));
}

/** Most length that a tolerance allows at a rate, both in millionths: tolerance ÷ |D|. Undefined for no dispersion. */
export function longestByDispersion(tolerance: number, rate: number): Micrometres | undefined {
  if (rate === 0) return undefined;
  const longest = (BigInt(tolerance) * 1_000_000_000n) / BigInt(Math.abs(Math.round(rate)));
  return longest > BigInt(Number.MAX_SAFE_INTEGER) ? undefined : (Number(longest) as Micrometres);
}
