/**
 * What a length of fibre does to a signal besides weakening it: how late it
 * comes, by how much fibres differ, and how far it is smeared. Sums over
 * stretches are kept exact where they are sums, so that a stretch cut in two
 * says the same.
 */
import type { Micrometres } from '../../../grammar/src/quantity/index.ts';

/** Speed of light in vacuum in metres per second, exact by definition of the metre (SI). */
const lightSpeed = 299_792_458n;

/**
 * Time that light takes over stretches in a row: Σ n·L ÷ c, `index` the group
 * index of each (no unit, six decimals count). Femtoseconds, rounded once.
 * Source: definition of the group index, Federal Standard 1037C; c of the SI.
 */
export function delayOver(
  stretches: readonly { readonly index: number; readonly length: Micrometres }[],
): number {
  let optical = 0n;
  for (const { index, length } of stretches)
    optical += BigInt(Math.round(index * 1e6)) * BigInt(length);
  // Millionths of a micrometre over metres per second: 1e-12 s, and 1e15 fs in one.
  return Number((optical * 1000n + lightSpeed / 2n) / lightSpeed);
}

/** Greatest delay less the least; undefined of fewer than two. In the unit of the delays. */
export function skewOf(delays: readonly number[]): number | undefined {
  if (delays.length < 2) return undefined;
  return Math.max(...delays) - Math.min(...delays);
}

/**
 * Modal bandwidth of stretches in a row, in the unit of kHz, from the product of
 * each in kHz·km: B = (Σ (L ÷ b)^(1/γ))^−γ, rounded down to a whole kHz.
 * Undefined of no length, which has no bound.
 *
 * With γ = 1 lengths of different grades count by the inverse of their
 * bandwidths: worked example 13.5 of a textbook of fibre-optic communication
 * (Keiser), and bandwidth over distance in a maker's guide. It gives the least;
 * mixing of modes makes γ smaller, down to 0.5 (textbooks, from memory).
 */
export function modalBandwidthOver(
  stretches: readonly { readonly product: number; readonly length: Micrometres }[],
  gamma = 1,
): number | undefined {
  let sum = 0;
  for (const { product, length } of stretches) sum += (length / 1e9 / product) ** (1 / gamma);
  if (sum === 0) return undefined;
  // What floating sums leave behind the ninth decimal is no bandwidth.
  return Math.floor(Math.round(sum ** -gamma * 1e6) / 1e6);
}

/**
 * Polarisation mode dispersion of stretches in a row: √(Σ p²·L), each in 1e-6
 * ps/√km, the sum in 1e-6 ps. It grows with the root of the length.
 * Source: link design value of ITU-T G.652 and G.657, read in supplier's pages.
 */
export function polarisationSpreadOver(
  stretches: readonly { readonly rate: number; readonly length: Micrometres }[],
): number {
  let squares = 0n;
  for (const { rate, length } of stretches) {
    const whole = BigInt(Math.round(rate));
    squares += whole * whole * BigInt(length);
  }
  return Math.round(Math.sqrt(Number(squares) / 1e9));
}
