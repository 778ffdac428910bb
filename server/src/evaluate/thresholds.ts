/**
 * Every threshold of the trade that judges nothing by itself: it only decides
 * when a reading is pointed at. Each says where it comes from.
 */
import {
  type MicroDb,
  type Micrometres,
  microDb,
  micrometres,
  type PartsPerMillion,
  type Picometres,
  partsPerMillion,
  type RatePerKm,
  ratePerKm,
} from '../../../grammar/src/quantity/index.ts';

/** Nominal windows of 850, 1300/1310 and 1550 nm are ±30 nm wide (IEC 61280-4-1 and -4-2 source tables, from memory). */
const windowHalfWidth = 30_000;

/** Whether light at one wavelength answers a question about the other: never beyond one nominal window. */
export function sameWindow(a: Picometres, b: Picometres): boolean {
  return Math.abs(a - b) <= windowHalfWidth;
}

/** Half of the 20 nm that lie between wavelengths of the coarse grid (ITU-T G.694.2, from memory). */
const coarseHalf = 10_000;

/** Whether light of one wavelength goes through the filter of another on a shared line. */
export function sameColour(a: Picometres, b: Picometres): boolean {
  return Math.abs(a - b) < coarseHalf;
}

/** Repeatability of one set-up in one session where the plan says none. Common practice, no source. */
export const usualRepeatability: MicroDb = microDb(50_000);

/** A loss and the powers it came from must agree within this. Common practice, no source. */
export const powerAgreement: MicroDb = microDb(20_000);

/** From this on a test cord's fibre counts in a glass link. Common practice, no source; the sum itself is arithmetic. */
export const cordFibreCounts: MicroDb = microDb(10_000);

/** A loss above this, or one that looks like a received power, is likely in the wrong unit. Common practice, no source. */
export const implausibleLoss: MicroDb = microDb(45_000_000);
export const looksLikePower: { readonly from: MicroDb; readonly to: MicroDb } = {
  from: microDb(-35_000_000),
  to: microDb(-5_000_000),
};

/** Readings of a block that must all be negative before the sign of the whole block is doubted. Common practice, no source. */
export const signBatch = 3;

/** Two directions of one fibre that differ by more are named. Common practice, no source (0.2 to 0.3 dB is usual). */
export const directionsDiffer: MicroDb = microDb(300_000);

/** More fibres than this with both directions equal to the last digit are named. Common practice, no source. */
export const copiedFibres = 5;

/** Excess loss at the longer wavelength that points to a bend on single-mode fibre. Common practice on a published typical slope. */
export const bendExcess: MicroDb = microDb(200_000);

/** Typical attenuation at 1310 nm less that at 1550 nm, 0.34 − 0.19 dB/km, where the fibre states none (published typical values of G.652.D). */
export const usualBendSlope: RatePerKm = ratePerKm(150_000);

/** Loss at 1300 nm above that at 850 nm by more than this, on multimode: labels exchanged, or a bend. Common practice, no source. */
export const longAboveShort: MicroDb = microDb(100_000);

/** Loss over what the parts typically lose, alike at two wavelengths, that points to a joint. Common practice, no source. */
export const jointResidual: MicroDb = microDb(300_000);

/** A reading this far above the median of its mates is named, if three times the median absolute deviation is less. Common practice, no source. */
export const outlierLeast: MicroDb = microDb(200_000);
export const outlierDeviations = 3;
/** Fewer mates than this say nothing of an outlier. Common practice, no source. */
export const outlierMates = 8;

/** Declared and measured length may differ by the larger of these two. Common practice, no source. */
export const lengthDiffers: { readonly share: PartsPerMillion; readonly least: Micrometres } = {
  share: partsPerMillion(30_000),
  least: micrometres(15_000_000),
};

/**
 * An event belongs to the nearest joint of its kind that lies within the larger
 * of these two: the share of its distance covers the helix of the fibre and the
 * group index, the least length the width of a pulse. Common practice, no source.
 */
export const eventAway: { readonly share: PartsPerMillion; readonly least: Micrometres } =
  lengthDiffers;

/** An average of two directions below zero by more than this is no splice. Common practice, no source. */
export const averageBelowZero: MicroDb = usualRepeatability;
